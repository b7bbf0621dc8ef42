/** Languages that the texts are there in. English stands in the code itself, the others in message files. */
export const LANGUAGES = ['en', 'de'] as const;

export type Language = (typeof LANGUAGES)[number];

/** Translations by English message. */
export type Messages = Readonly<Record<string, string>>;

const NONE: Messages = {};

let chosen: { readonly language: Language; readonly locale: string; readonly messages: Messages } = {
  language: 'en',
  locale: 'en',
  messages: NONE,
};

/**
 * Chooses the language of all texts. Called once by each program (page, worker, command line) before anything that
 * says a word is loaded, never later: texts that were made once would stay as they are. `locale`: a tag of the same
 * language, such as `de-CH`, by which numbers and dates are written.
 */
export function setLanguage(language: Language, locale: string, messages: Messages = NONE): void {
  chosen = { language, locale, messages };
}

export const currentLanguage = (): Language => chosen.language;

/** The tag by which numbers and dates are written. */
export const currentLocale = (): string => chosen.locale;

/** The translation of an English message, or the message itself where there is none. */
export const translated = (message: string): string =>
  Object.hasOwn(chosen.messages, message) ? (chosen.messages[message] ?? message) : message;

const languageOf = (tag: string): string => tag.toLowerCase().split(/[-_.@]/)[0] ?? '';

const isSpoken = (name: string): name is Language => (LANGUAGES as readonly string[]).includes(name);

/** A language by its name or a tag of it (`de`, `de-AT`, `de_AT.UTF-8`), or null. */
export const readLanguage = (tag: string): Language | null => {
  const name = languageOf(tag);
  return isSpoken(name) ? name : null;
};

/** The first language of those a person prefers, best first, that the texts are there in; else English. */
export const preferredLanguage = (tags: readonly string[]): Language =>
  tags.map(readLanguage).find((language) => language !== null) ?? 'en';

/** The first of the tags a person prefers that is of this language and that `Intl` knows, else the language itself. */
export function localeOf(language: Language, tags: readonly string[]): string {
  for (const tag of tags) {
    const tidy = tag.replace(/[.@].*$/, '').replace(/_/g, '-');
    try {
      if (languageOf(tidy) === language && Intl.getCanonicalLocales(tidy).length === 1) return tidy;
    } catch {
      // No tag at all.
    }
  }
  return language;
}

/** Fetches the messages of a language and chooses it. English needs none. Rejects where they cannot be loaded. */
export async function loadLanguage(language: Language, tags: readonly string[]): Promise<void> {
  const locale = localeOf(language, tags);
  if (language === 'en') return setLanguage(language, locale);
  const { default: messages } = await import('./de.json');
  setLanguage(language, locale, messages);
}
