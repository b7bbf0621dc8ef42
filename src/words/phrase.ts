import { IntlMessageFormat } from 'intl-messageformat';
import { currentLanguage, currentLocale, translated } from './language.ts';

/** What a message is told of: `{name}`, `{n, number}`, `{n, plural, …}`, `{kind, select, …}`; nothing is no text. */
export type Values = Readonly<Record<string, string | number | boolean | Date | null | undefined>>;

/** A note for translators before a message that English writes as another: `[[seam end]] Open`. Never shown. */
const NOTE = /^\[\[[^\]]*\]\] /;

/** Text that the message format reads as more than itself. */
const FORMAT = /[{}]|''|'[{}]/;

/** A text with nothing but names in braces: most are such, and need no parser. */
const NAMES_ALONE = /^[^{}'#]*(?:\{\w+\}[^{}'#]*)+$/;

/** What stands between the names of a text, and the names, in turn. */
type Template = readonly string[];

const made = new Map<string, string | Template | IntlMessageFormat>();

function messageOf(message: string): string | Template | IntlMessageFormat {
  const known = made.get(message);
  if (known !== undefined) return known;
  const text = translated(message).replace(NOTE, '');
  const format = NAMES_ALONE.test(text)
    ? text.split(/[{}]/)
    : FORMAT.test(text)
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
  if (typeof format === 'string') return format;
  return format instanceof IntlMessageFormat
    ? (format.format(values) as string)
    : filled(format, values ?? {});
}

const filled = (template: Template, values: Values): string =>
  template.map((part, k) => (k % 2 === 0 ? part : valueIn(values, part))).join('');

function valueIn(values: Values, name: string): string {
  if (!Object.hasOwn(values, name)) throw new Error(`The message has no value for ${name}.`);
  const value = values[name];
  return value === false ? '' : String(value ?? '');
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
