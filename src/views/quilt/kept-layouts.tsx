import { useMemo } from 'react';
import { useStore } from 'zustand';
import { valueOfColor } from '../../document/lightness.ts';
import { paintedPatches } from '../../document/painted-patches.ts';
import { laid, lieOf } from '../../document/place-polygon.ts';
import type { Project } from '../../document/project.ts';
import { isBlockPlace, type KeptLayout, type Quilt } from '../../document/quilt.ts';
import type { Ring } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import { piecesOf } from '../../quilt/layout.ts';
import { phrase } from '../../words/phrase.ts';
import { session } from '../../workspace/session.ts';
import { ActButton } from '../act-button.tsx';
import { oneStop } from '../one-stop.ts';
import { changePart } from './quilt-acts.ts';
import { quiltView } from './quilt-state.ts';

/** Other arrangements, side by side with this one: kept, looked at, taken up again. */
export function KeptLayouts({ quilt }: { readonly quilt: Quilt }) {
  const project = useStore(session, (state) => state.project);
  const { layouts = [] } = quilt;
  const keep = (): void =>
    changePart(phrase('Keep this arrangement'), (old) => ({
      ...old,
      layouts: [...(old.layouts ?? []), arrangementOf(old, freeName(old.layouts ?? []))],
    }));
  const take = (k: number): void => {
    changePart(phrase('Take up an arrangement'), (old) => {
      const taken = old.layouts?.[k];
      if (!taken) return old;
      const { module: _module, setting: _setting, borders: _borders, units: _units, ...rest } = old;
      const { name, ...arrangement } = taken;
      // What is on the board takes its place in the row, so that nothing is lost by looking.
      return {
        ...rest,
        ...arrangement,
        layouts: old.layouts!.map((one, i) => (i === k ? arrangementOf(old, name) : one)),
      };
    });
    quiltView.setState({ selection: [], step: 0 });
  };
  return (
    <section className="quilt-card" aria-labelledby="layouts-title">
      <h2 id="layouts-title" className="quilt-title">
        {phrase('Arrangements')}
      </h2>
      {layouts.length === 0 && (
        <p className="soft">{phrase('Keep this one, then try another: both stay, side by side.')}</p>
      )}
      <ul ref={oneStop} className="kept-layouts">
        {layouts.map((layout, k) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: an arrangement is known by its place in the row.
          <li key={k}>
            <button type="button" className="kept-layout" onClick={() => take(k)}>
              <LayoutPicture project={project} layout={layout} />
              <span>{layout.name}</span>
            </button>
            <ActButton
              icon="delete"
              size={16}
              label={phrase('Delete {layout}', { layout: layout.name })}
              act={() =>
                changePart(phrase('Delete an arrangement'), (old) => ({
                  ...old,
                  layouts: old.layouts?.filter((_, i) => i !== k) ?? [],
                }))
              }
            />
          </li>
        ))}
      </ul>
      <button type="button" className="button" aria-disabled={quilt.places.length === 0} onClick={keep}>
        {phrase('Keep this arrangement')}
      </button>
    </section>
  );
}

function arrangementOf({ places, module, setting, borders }: Quilt, name: string): KeptLayout {
  return {
    name,
    places,
    ...(module !== undefined && { module }),
    ...(setting && { setting }),
    ...(borders && { borders }),
  };
}

function freeName(layouts: readonly KeptLayout[]): string {
  const taken = new Set(layouts.map(({ name }) => name));
  let n = layouts.length + 1;
  while (taken.has(phrase('Arrangement {n}', { n }))) n++;
  return phrase('Arrangement {n}', { n });
}

const path = (rings: readonly Ring[]): string =>
  rings.map((ring) => `M${ring.map(([x, y]) => `${x.toFixed(2)} ${y.toFixed(2)}`).join('L')}Z`).join('');

/** An arrangement, small: each fabric one path. */
export function LayoutPicture({
  project,
  layout,
}: {
  readonly project: Project;
  readonly layout: Pick<Quilt, 'places'>;
}) {
  const shows = useStore(quiltView, (state) => state.shows);
  const { paths, box } = useMemo(() => {
    const byFabric = new Map<string, Ring[]>();
    const add = (fabric: string | null | undefined, ...rings: Ring[]): void => {
      const key = fabric ?? '';
      const known = byFabric.get(key);
      if (known) known.push(...rings);
      else byFabric.set(key, [...rings]);
    };
    const pieces = piecesOf(layout.places, project.blocks);
    const painted = new Map<string, ReturnType<typeof paintedPatches>>();
    for (const { place, polygon } of pieces) {
      if (!isBlockPlace(place)) {
        add(place.fabric, polygon);
        continue;
      }
      const block = project.blocks.find(({ id }) => id === place.block)!;
      if (!painted.has(block.id)) painted.set(block.id, paintedPatches(block));
      const lie = lieOf(block.outline, place.turn, place.mirrored, place.at);
      for (const patch of painted.get(block.id)!)
        add(patch.fabric, ...[patch.polygon, ...patch.holes].map((ring) => ring.map((p) => laid(lie, p))));
    }
    return {
      paths: [...byFabric].map(([fabric, rings]) => [fabric, path(rings)] as const),
      box: boxOf(pieces.flatMap(({ polygon }) => polygon)),
    };
  }, [project.blocks, layout.places]);
  const color = (id: string): string => {
    const fabric = project.fabrics.find((one) => one.id === id);
    if (!fabric) return 'var(--sheet)';
    return shows === 'value' ? valueOfColor(fabric.color) : fabric.color;
  };
  return (
    <svg
      className="layout-picture"
      viewBox={`${box.minX} ${box.minY} ${Math.max(1, box.maxX - box.minX)} ${Math.max(1, box.maxY - box.minY)}`}
      aria-hidden="true"
      focusable="false"
    >
      {paths.map(([fabric, d]) => (
        <path key={fabric} d={d} fill={color(fabric)} fillRule="evenodd" />
      ))}
    </svg>
  );
}
