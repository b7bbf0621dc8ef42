import { IntlMessageFormat } from 'intl-messageformat';
import { afterEach, describe, expect, it } from 'vitest';
import { localeOf, preferredLanguage, setLanguage } from '../../src/words/language.ts';
import { decimalSign, numeral, perCent } from '../../src/words/numeral.ts';
import { phrase, phraseParts } from '../../src/words/phrase.ts';

afterEach(() => setLanguage('en', 'en'));

describe('a phrase', () => {
  it('is its own English', () => {
    expect(phrase('Delete')).toBe('Delete');
    expect(phrase('the block’s outline, isn’t it')).toBe('the block’s outline, isn’t it');
    expect(phrase('5 < 6 and <FILE>')).toBe('5 < 6 and <FILE>');
  });

  it('counts', () => {
    const count = (n: number) => phrase('{n, plural, one {# patch} other {# patches}}', { n });
    expect([0, 1, 2, 1250].map(count)).toEqual(['0 patches', '1 patch', '2 patches', '1,250 patches']);
  });

  it('drops the note for translators', () => {
    expect(phrase('[[seam end]] Open')).toBe('Open');
  });

  it('puts values in the places of their names as the message format does', () => {
    for (const text of ['{name}', 'Line {n}', '{a}{b} to {a}', 'from {a}, not {b}.', 'the block’s {b}'])
      for (const value of ['Gull', '', 0, 7.25, -1, null, undefined, false, 'a {b} c'])
        expect(phrase(text, { name: value, n: value, a: value, b: 'x' })).toBe(
          new IntlMessageFormat(text, 'en').format({ name: value, n: value, a: value, b: 'x' }),
        );
  });

  it('throws where a value is missing', () => {
    expect(() => phrase('Delete {name}')).toThrow();
  });

  it('holds other things than words', () => {
    const parts = phraseParts<{ tag: string; of: unknown }>('Press <kbd>K</kbd> on {what}.', {
      kbd: (of) => ({ tag: 'kbd', of }),
      what: 'Line',
    });
    expect(parts).toEqual(['Press ', { tag: 'kbd', of: ['K'] }, ' on Line.']);
  });
});

describe('another language', () => {
  // German as the Duden and CLDR have it: comma before decimals, full stop between thousands, a space before %.
  it('comes from its messages, with its own numbers', () => {
    setLanguage('de', 'de', {
      'Second of {n, number}': 'Zweiter von {n, number}',
      '{n, plural, one {# fold} other {# folds}}': '{n, plural, one {# Falz} other {# Falze}}',
    });
    expect(phrase('Second of {n, number}', { n: 12345.5 })).toBe('Zweiter von 12.345,5');
    expect(phrase('{n, plural, one {# fold} other {# folds}}', { n: 1 })).toBe('1 Falz');
    expect(numeral(1250)).toBe('1.250');
    expect(decimalSign()).toBe(',');
    expect(perCent(0.25)).toBe('25\u00a0%');
    expect(phrase('A text without a translation')).toBe('A text without a translation');
  });

  it('is the first that a person prefers and the texts are there in', () => {
    expect(preferredLanguage(['fr-FR', 'de-AT', 'en'])).toBe('de');
    expect(preferredLanguage(['en-GB', 'de'])).toBe('en');
    expect(preferredLanguage(['de_CH.UTF-8'])).toBe('de');
    expect(preferredLanguage(['C'])).toBe('en');
    expect(preferredLanguage([])).toBe('en');
  });

  it('writes numbers by the locale a person prefers in it', () => {
    expect(localeOf('de', ['fr', 'de-CH', 'de'])).toBe('de-CH');
    expect(localeOf('de', ['de_AT.UTF-8'])).toBe('de-AT');
    expect(localeOf('en', ['de'])).toBe('en');
    expect(localeOf('en', ['en-\u0000', 'C'])).toBe('en');
  });
});
