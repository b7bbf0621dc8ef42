/** Says something with the browser's own voice, cutting short what is being said. Silent where it has none. */
export function speak(words: string): void {
  if (!canSpeak()) return;
  speechSynthesis.cancel();
  const said = new SpeechSynthesisUtterance(words);
  said.lang = document.documentElement.lang || 'en';
  speechSynthesis.speak(said);
}

export const canSpeak = (): boolean => 'speechSynthesis' in window;

export const hush = (): void => {
  if (canSpeak()) speechSynthesis.cancel();
};
