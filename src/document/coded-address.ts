/**
 * What a code printed on a paper, or on the divider of a fabric, holds: the address this app is served from and, after
 * `#`, what it stands for. What stands after `#` never leaves the machine.
 */
export type Coded = { readonly paper: string } | { readonly fabric: string };

/** `base`: the address of the app, without anything after `#`. */
export const codedAddress = (base: string, coded: Coded): string =>
  'paper' in coded ? `${base}#paper=${encoded(coded.paper)}` : `${base}#fabric=${encoded(coded.fabric)}`;

/** A slash may stand after `#` as it is (RFC 3986, 3.5), which keeps codes small. */
const encoded = (id: string): string => encodeURIComponent(id).replaceAll('%2F', '/');

/** What a code, or the part of an address after `#`, stands for; null where it is none of ours. */
export function readCode(text: string): Coded | null {
  const found = /#(paper|fabric)=([^#&\s]{1,400})$/.exec(text.trim());
  if (!found) return null;
  try {
    const id = decodeURIComponent(found[2]!);
    if (found[1] === 'fabric') return { fabric: id };
    return /^.+\/[^/]+\/\d+$/.test(id) ? { paper: id } : null;
  } catch {
    return null;
  }
}
