import { IntlMessageFormat } from 'intl-messageformat';
import { currentLanguage, currentLocale, translated } from './language.ts';

/** What a message is told of: `{name}`, `{n, number}`, `{n, plural, …}`, `{kind, select, …}`; nothing is no text. */
export type Values = Readonly<Record<string, string | number | boolean | Date | null | undefined>>;

/** A note for translators before a message that English writes as another: `[[seam end]] Open`. Never shown. */
const NOTE = /^\[\[[^\]]*\]\] /;

/** Text that the message format reads as more than itself. */
const FORMAT = /[{}]|''|'[{}]/;

const made = new Map<string, string | IntlMessageFormat>();

function messageOf(message: string): string | IntlMessageFormat {
  const known = made.get(message);
  if (known !== undefined) return known;
  const text = translated(message).replace(NOTE, '');
  const format = FORMAT.test(text)
    ? new IntlMessageFormat(text, currentLocale(), undefined, { ignoreTag: true })
    : text;
  made.set(message, format);
  return format;
}

/**
 * A text in the language chosen. `message` is the English text itself, in the format of ICU messages:
 * `phrase('{n, plural, one {# patch} other {# patches}}', { n })`. It is written out where it is used, so that the
 * message files can be made from the code; one that holds no values comes back as it is. Throws where a value is
 * missing.
 */
export function phrase(message: string, values?: Values): string {
  const format = messageOf(message);
  return typeof format === 'string' ? format : (format.format(values) as string);
}

/** A text that begins large, as it stands inside a sentence: German keeps its capitals. */
export const midSentence = (text: string): string =>
  currentLanguage() === 'en' ? text.charAt(0).toLowerCase() + text.slice(1) : text;

const parted = new Map<string, IntlMessageFormat>();

/**
 * The parts of a text with other things than words in it: `{key}` is whatever `values` has under that name, `<b>…</b>`
 * what the function under the name `b` makes of the parts between.
 */
export function phraseParts<Part>(
  message: string,
  values: Readonly<Record<string, Values[string] | Part | ((parts: (string | Part)[]) => Part)>>,
): readonly (string | Part)[] {
  let format = parted.get(message);
  if (format === undefined) {
    format = new IntlMessageFormat(translated(message).replace(NOTE, ''), currentLocale());
    parted.set(message, format);
  }
  const parts = format.format<Part>(values as Parameters<typeof format.format<Part>>[0]);
  return (Array.isArray(parts) ? parts : [parts]) as (string | Part)[];
}
