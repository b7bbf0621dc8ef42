/** A word in the middle while something opens; it appears only after a moment. */
export function Waiting({ text }: { readonly text: string }) {
  return (
    <main className="waiting" aria-busy="true">
      <p role="status">{text}</p>
    </main>
  );
}
