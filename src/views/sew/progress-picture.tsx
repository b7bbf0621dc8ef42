import { lieOf } from '../../document/place-polygon.ts';
import type { Project } from '../../document/project.ts';
import { type BlockPlace, isBlockPlace } from '../../document/quilt.ts';
import { madeFor } from '../../document/turned-over.ts';
import type { Work, WorkBlock } from '../../document/work.ts';
import { boxOf } from '../../geometry/ring.ts';
import { sewnOf } from '../../rounds/work.ts';
import { phrase } from '../../words/phrase.ts';

interface Lying {
  readonly key: string;
  readonly block: WorkBlock;
  readonly copy: number;
  readonly transform: string;
}

/** The quilt, or the blocks side by side where there is none: what is sewn is in colour. */
export function ProgressPicture({
  project,
  work,
  colors,
}: {
  readonly project: Project;
  readonly work: Work;
  readonly colors: ReadonlyMap<string, string>;
}) {
  const { lying, plain, box } = layIn(project, work);
  if (lying.length === 0) return null;
  return (
    <svg
      className="progress-picture"
      viewBox={box}
      role="img"
      aria-label={phrase('What is sewn so far, in colour')}
    >
      {plain.map(({ key, x, y, width, height, fabric }) => (
        <rect
          key={key}
          x={x}
          y={y}
          width={width}
          height={height}
          className="progress-plain"
          style={{ fill: (fabric !== undefined && colors.get(fabric)) || undefined }}
        />
      ))}
      {lying.map(({ key, block, copy, transform }) => (
        <g key={key} transform={transform}>
          {piecesOf(work, block, copy, colors).map(({ d, fill }) => (
            <path key={`${fill}`} d={d} style={{ fill }} className="progress-piece" />
          ))}
        </g>
      ))}
    </svg>
  );
}

/** The patches of one colour as one path, so that a quilt of thousands is drawn in hundreds. */
function piecesOf(work: Work, block: WorkBlock, copy: number, colors: ReadonlyMap<string, string>) {
  const sewn = new Set(
    block.sections.flatMap(({ letter, order }) =>
      order.slice(0, sewnOf(work, `${block.id}/${letter}/${copy}`)),
    ),
  );
  const paths = new Map<string, string>();
  for (const { id, fabric, polygon } of block.patches) {
    const fill = sewn.has(id)
      ? (fabric !== undefined && colors.get(fabric)) || 'var(--rule-strong)'
      : 'var(--sheet)';
    paths.set(fill, `${paths.get(fill) ?? ''}M${polygon.map(([x, y]) => `${x} ${y}`).join('L')}Z`);
  }
  return [...paths].map(([fill, d]) => ({ fill, d }));
}

function layIn(project: Project, work: Work) {
  const blocks = new Map(work.blocks.map((block) => [block.id, block]));
  const lying: Lying[] = [];
  const plain: { key: string; x: number; y: number; width: number; height: number; fabric?: string }[] = [];
  const used = new Map<string, number>();
  for (const place of project.quilt?.places ?? []) {
    if (!isBlockPlace(place)) {
      const [width, height] = place.size;
      plain.push({
        key: place.id,
        x: place.at[0],
        y: place.at[1],
        width,
        height,
        ...(place.fabric === undefined ? {} : { fabric: place.fabric }),
      });
      continue;
    }
    const shown = blockShown(place, blocks);
    if (!shown) continue;
    const { block } = shown;
    const nth = used.get(block.id) ?? 0;
    used.set(block.id, nth + 1);
    const { a, b, c, d, e, f } = lieOf(block.outline, place.turn, shown.mirrored, place.at);
    lying.push({
      key: place.id,
      block,
      copy: (nth % block.copies) + 1,
      transform: `matrix(${a} ${b} ${c} ${d} ${e} ${f})`,
    });
  }
  if (lying.length > 0) {
    const { minX, minY, maxX, maxY } = boxOf(
      (project.quilt?.places ?? []).flatMap((place) => cornersOf(place, blocks)),
    );
    return { lying, plain, box: `${minX} ${minY} ${maxX - minX} ${maxY - minY}` };
  }
  const copies = work.blocks.flatMap((block) =>
    Array.from({ length: block.copies }, (_, k) => ({ block, copy: k + 1, box: boxOf(block.outline) })),
  );
  const cell =
    1.08 * Math.max(1, ...copies.map(({ box }) => Math.max(box.maxX - box.minX, box.maxY - box.minY)));
  const columns = Math.max(1, Math.ceil(Math.sqrt(copies.length)));
  copies.forEach(({ block, copy, box }, k) => {
    const [x, y] = [(k % columns) * cell - box.minX, Math.floor(k / columns) * cell - box.minY];
    lying.push({ key: `${block.id}/${copy}`, block, copy, transform: `translate(${x} ${y})` });
  });
  return { lying, plain: [], box: `0 0 ${columns * cell} ${Math.ceil(copies.length / columns) * cell}` };
}

/** The block in work that lies in a place: turned over where it is made so, else mirrored as it lies. */
function blockShown(
  place: BlockPlace,
  blocks: ReadonlyMap<string, WorkBlock>,
): { readonly block: WorkBlock; readonly mirrored: boolean } | null {
  const made = blocks.get(madeFor(place));
  if (made) return { block: made, mirrored: false };
  const drawn = blocks.get(place.block);
  return drawn ? { block: drawn, mirrored: place.mirrored } : null;
}

function cornersOf(
  place: NonNullable<Project['quilt']>['places'][number],
  blocks: ReadonlyMap<string, WorkBlock>,
): (readonly [number, number])[] {
  const [x, y] = place.at;
  if (!isBlockPlace(place)) return [place.at, [x + place.size[0], y + place.size[1]]];
  const shown = blockShown(place, blocks);
  if (!shown) return [place.at];
  const { a, b, c, d, e, f } = lieOf(shown.block.outline, place.turn, shown.mirrored, place.at);
  return shown.block.outline.map(([px, py]) => [a * px + c * py + e, b * px + d * py + f]);
}
