import { type Language, loadLanguage, preferredLanguage, readLanguage } from '../words/language.ts';

const KEY = 'underpaper-language';

/** The language chosen by hand in this browser, or null. */
function keptLanguage(): Language | null {
  try {
    return readLanguage(localStorage.getItem(KEY) ?? '');
  } catch {
    return null;
  }
}

/** Keeps a language by hand and loads the page anew in it. */
export function chooseLanguage(language: Language): void {
  try {
    localStorage.setItem(KEY, language);
  } catch {
    // Not kept: the page comes back in the browser's own language.
  }
  location.reload();
}

/** Chooses the language of the page: that kept, else the browser's own. English where its messages do not come. */
export async function startLanguage(): Promise<void> {
  const tags = navigator.languages;
  const language = keptLanguage() ?? preferredLanguage(tags);
  await loadLanguage(language, tags).catch(() => loadLanguage('en', tags));
}
