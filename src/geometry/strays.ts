import type { Net, Stray } from './noding.ts';
import type { Segment } from './point.ts';

/** What of each line was left out, said once a line and kind. */
export function strayParts(
  net: Net,
  lines: readonly Segment[],
  isOutside: Uint8Array,
  idle: readonly number[],
  kept: readonly number[],
): Stray[] {
  const { x, y } = net;
  const keptOf = new Uint8Array(lines.length);
  for (const e of kept) if (net.line[e]! >= 0) keptOf[net.line[e]!] = 1;
  const overlapped = new Set(net.strays.filter((s) => s.kind === 'overlap').map((s) => s.line));
  const strays: Stray[] = [];
  const reached = new Set(idle.length > 0 ? kept.flatMap((e) => [net.from[e]!, net.to[e]!]) : []);
  const idleOf = new Map<number, number[]>();
  for (const e of idle) {
    const l = net.line[e]!;
    idleOf.set(l, [...(idleOf.get(l) ?? []), e]);
  }
  for (const [l, edges] of idleOf) {
    // A cut close to a sharp corner draws both sides of it together: the tip left over is no cut's.
    if (l < 0) continue;
    if (keptOf[l]) {
      // Of a part that leads nowhere, the end is a vertex no kept edge reaches; a bridge has its middle.
      const ends = edges.flatMap((e) => [net.from[e]!, net.to[e]!]);
      const tips = ends.filter((v) => !reached.has(v) && ends.filter((w) => w === v).length === 1);
      for (const tip of tips.length > 0 ? tips : ends.slice(0, 1))
        strays.push({ kind: 'loose-end', line: l, other: null, at: [x[tip]!, y[tip]!] });
    } else {
      const [a, b] = lines[l]!;
      strays.push({ kind: 'idle', line: l, other: null, at: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] });
    }
  }
  const isSaid = new Set<number>();
  const onRim = new Set(isOutside.includes(1) ? kept.flatMap((e) => [net.from[e]!, net.to[e]!]) : []);
  for (let e = 0; e < isOutside.length; e++) {
    const l = net.line[e]!;
    if (!isOutside[e] || isSaid.has(l)) continue;
    const leaves = [net.from[e]!, net.to[e]!].find((v) => onRim.has(v));
    const isLastOfLine = !isOutside.slice(e + 1).some((is, k) => is === 1 && net.line[e + 1 + k] === l);
    // Told where the line leaves the region, on the first of its outside edges that starts there.
    if (leaves === undefined && !isLastOfLine) continue;
    isSaid.add(l);
    const isSomewhere = keptOf[l] || idleOf.has(l) || overlapped.has(l);
    const [a, b] = lines[l]!;
    strays.push(
      isSomewhere
        ? {
            kind: 'past-outline',
            line: l,
            other: null,
            at: [x[leaves ?? net.to[e]!]!, y[leaves ?? net.to[e]!]!],
          }
        : { kind: 'outside', line: l, other: null, at: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] },
    );
  }
  return strays;
}
