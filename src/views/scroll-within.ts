/** Brings a thing into sight within the list that scrolls it, and moves nothing else of the page. */
export function scrollWithin(list: HTMLElement, thing: HTMLElement | null | undefined): void {
  if (thing == null) return;
  const frame = list.getBoundingClientRect();
  const box = thing.getBoundingClientRect();
  list.scrollBy({
    left: Math.max(0, box.right - frame.right) + Math.min(0, box.left - frame.left),
    top: Math.max(0, box.bottom - frame.bottom) + Math.min(0, box.top - frame.top),
  });
}
