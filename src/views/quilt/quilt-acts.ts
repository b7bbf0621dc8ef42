import {
  addPlace,
  changeQuilt,
  type Filling,
  fillPlaces,
  mirrorPlaces,
  movePlaces,
  nextPlaceId,
  quiltOf,
  removePlaces,
  swapPlaces,
  turnPlaces,
} from '../../document/edit-quilt.ts';
import { lightnessOfColor } from '../../document/lightness.ts';
import { sizeAsLaid } from '../../document/place-polygon.ts';
import type { Project } from '../../document/project.ts';
import { type Border, isBlockPlace, type Place, type Quilt, type Setting } from '../../document/quilt.ts';
import type { Point } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import {
  bordered,
  type Content,
  contentsOf,
  makePlaces,
  sharedModule,
  slotCount,
} from '../../quilt/settings/make-places.ts';
import { phrase } from '../../words/phrase.ts';
import { edit, say } from '../../workspace/actions.ts';
import { session, shownProject } from '../../workspace/session.ts';
import { type QuiltView, quiltView } from './quilt-state.ts';
import { layoutOf } from './shown-quilt.ts';

/** What is done to the quilt, each one step of the history. */

export const choose = (selection: readonly string[]): void => quiltView.setState({ selection });

/** Ids that are still there: an undo may have taken some away. */
export function chosenPlaces(project: Project, { selection }: QuiltView): readonly Place[] {
  const byId = new Map(quiltOf(project).places.map((place) => [place.id, place]));
  return selection.flatMap((id) => byId.get(id) ?? []);
}

const chosenIds = (): ReadonlySet<string> =>
  new Set(chosenPlaces(session.getState().project, quiltView.getState()).map(({ id }) => id));

/** The step that places keep to: as set, else the largest all blocks in use share, else 1 in. */
export function moduleOf(project: Project): number {
  const quilt = quiltOf(project);
  if (quilt.module !== undefined) return quilt.module;
  const used = new Set(quilt.places.flatMap((place) => (isBlockPlace(place) ? [place.block] : [])));
  const sizes = project.blocks
    .filter(({ id }) => used.size === 0 || used.has(id))
    .map(({ outline }) => sizeAsLaid(outline, 0));
  return sharedModule(sizes) ?? 1;
}

const blockName = (project: Project, id: string): string =>
  project.blocks.find((block) => block.id === id)?.name ?? 'block';

/** Lays something in places; says so where some are of another size. */
export function fill(ids: readonly string[], filling: Filling): void {
  const { project } = session.getState();
  const filled = fillPlaces(project, new Set(ids), filling);
  const changed = quiltOf(filled).places.filter((place, k) => place !== quiltOf(project).places[k]).length;
  if (filling !== null && 'block' in filling && changed < ids.length) {
    const already = quiltOf(project).places.filter(
      (place) => ids.includes(place.id) && isBlockPlace(place) && place.block === filling.block,
    ).length;
    const off = ids.length - Math.max(changed, already);
    if (off > 0)
      say(
        'trouble',
        phrase(
          '‘{blockName}’ is not as large as {off, plural, one {that place} other {# of those places}}: a copy of it at another size can be made in the tray.',
          { blockName: blockName(project, filling.block), off },
        ),
      );
  }
  edit(filling === null ? phrase('Empty places') : phrase('Fill places'), () => filled);
}

/** What the plain places inside the borders are, that nothing lies in yet. */
export const emptyPlaces = (project: Project): readonly Place[] =>
  quiltOf(project).places.filter(
    (place) => !isBlockPlace(place) && place.fabric === undefined && place.part === undefined,
  );

export const fillEmpty = (filling: Filling): void =>
  fill(
    emptyPlaces(session.getState().project).map(({ id }) => id),
    filling,
  );

/** The chosen places over and over, through all places of their size in reading order. */
export function repeatChosen(): void {
  const { project } = session.getState();
  const pattern = chosenPlaces(project, quiltView.getState()).flatMap((place): Filling[] =>
    isBlockPlace(place)
      ? [{ block: place.block, turn: place.turn - (place.turn % 1), mirrored: place.mirrored }]
      : place.fabric === undefined
        ? []
        : [{ fabric: place.fabric }],
  );
  if (pattern.length === 0) return;
  const slots = quiltOf(project).places.filter(({ part }) => part === undefined);
  edit(phrase('Repeat chosen places'), (before) =>
    slots.reduce(
      (after, { id }, k) => fillPlaces(after, new Set([id]), pattern[k % pattern.length]!),
      before,
    ),
  );
}

export const turnChosen = (quarters: number): void =>
  edit(phrase('Turn'), (project) => turnPlaces(project, chosenIds(), quarters));

export const mirrorChosen = (): void =>
  edit(phrase('Mirror'), (project) => mirrorPlaces(project, chosenIds()));

/** Empties chosen blocks; what is empty already is taken away. */
export function removeChosen(): void {
  const { project } = session.getState();
  const chosen = chosenPlaces(project, quiltView.getState());
  const full = chosen.filter((place) => isBlockPlace(place) || place.fabric !== undefined);
  if (full.length > 0)
    fill(
      full.map(({ id }) => id),
      null,
    );
  else edit(phrase('Remove places'), (before) => removePlaces(before, new Set(chosen.map(({ id }) => id))));
}

export function swapChosen(): void {
  const [one, other] = quiltView.getState().selection.slice(-2);
  if (one !== undefined && other !== undefined)
    edit(phrase('Swap'), (project) => swapPlaces(project, one, other));
}

export const moveChosen = (by: Point): void =>
  edit(phrase('Move places'), (project) => movePlaces(project, chosenIds(), by), { merge: 'move-places' });

/** Lays something as a place of its own, free. */
export function layFree(filling: Exclude<Filling, null>, at: Point, size: Point): void {
  const { project } = session.getState();
  const id = nextPlaceId(quiltOf(project));
  edit(phrase('Lay a place'), (before) =>
    addPlace(
      before,
      'block' in filling
        ? { at, block: filling.block, turn: filling.turn, mirrored: filling.mirrored }
        : { at, size, fabric: filling.fabric },
    ),
  );
  choose([id]);
}

/** Fabrics from dark to light. */
export const byLightness = (fabrics: Project['fabrics']): Project['fabrics'] =>
  fabrics.toSorted((a, b) => lightnessOfColor(a.color) - lightnessOfColor(b.color));

/** The setting a quilt begins with: as near to a square as its blocks make it, in cells of the size most of them have. */
export function firstSetting(project: Project, kind: Setting['kind'] = 'straight'): Setting {
  const sizes = new Map<string, { size: Point; count: number }>();
  for (const { outline } of project.blocks) {
    const size = sizeAsLaid(outline, 0);
    const key = size.join(' ');
    sizes.set(key, { size, count: (sizes.get(key)?.count ?? 0) + 1 });
  }
  const common = [...sizes.values()].sort((a, b) => b.count - a.count)[0];
  const cell: Point = common?.size ?? [12, 12];
  const side = kind === 'on-point' ? ([Math.max(...cell), Math.max(...cell)] as const) : cell;
  const palest = byLightness(project.fabrics).at(-1);
  return {
    kind,
    columns: kind === 'mixed' ? 4 : 3,
    rows: 3,
    cell: side,
    ...(kind !== 'straight' && palest && { fabric: palest.id }),
    ...(kind === 'strips' && { strip: { width: 2, ...(palest && { fabric: palest.id }) } }),
  };
}

/** Fills a new setting by turns with the blocks that fit it. */
function firstContents(project: Project, setting: Setting, count: number): Content[] {
  const fitting = project.blocks.filter(({ outline }) => {
    const [w, h] = sizeAsLaid(outline, 0);
    return (
      setting.kind === 'mixed' ||
      (Math.abs(w - setting.cell[0]) < 0.01 && Math.abs(h - setting.cell[1]) < 0.01)
    );
  });
  if (fitting.length === 0) return Array.from({ length: count }, () => null);
  return Array.from({ length: count }, (_, k) => ({
    block: fitting[k % fitting.length]!.id,
    turn: 0,
    mirrored: false,
  }));
}

/** The quilt in another setting, with what is in it laid in order; a sentence where that cannot be. */
export function inSetting(project: Project, setting: Setting, borders: readonly Border[]): Quilt | string {
  const quilt = quiltOf(project);
  const count = setting.kind === 'mixed' ? project.blocks.length : slotCount(setting);
  const fresh = firstContents(project, setting, count);
  // What was there stays where it was; places that come are filled by turns.
  const contents =
    quilt.places.length === 0
      ? fresh
      : setting.kind === 'mixed'
        ? contentsOf(quilt)
        : refilled(quilt, setting, fresh);
  const made = makePlaces(setting, contents, borders, project.blocks, project.unit);
  if (!made.ok) return made.message;
  const { units: _units, module: _module, ...rest } = quilt;
  return { ...rest, places: made.places, setting, ...(borders.length > 0 ? { borders } : { borders: [] }) };
}

/** What was in the quilt, by row and column where both settings have such, so that a column more moves nothing. */
function refilled(quilt: Quilt, setting: Setting, fresh: readonly Content[]): readonly Content[] {
  const contents = contentsOf(quilt);
  const before = quilt.setting;
  const isGrid = (kind: Setting['kind'] | undefined): boolean => kind === 'straight' || kind === 'strips';
  return fresh.map((one, k): Content => {
    if (!before || !isGrid(before.kind) || !isGrid(setting.kind))
      return k < contents.length ? contents[k]! : one;
    const [row, column] = [Math.floor(k / setting.columns), k % setting.columns];
    return column < before.columns && row < before.rows ? contents[row * before.columns + column]! : one;
  });
}

/** Sets the quilt; what stands in the way is said and nothing changes. False then. */
export function setQuilt(
  label: string,
  setting: Setting,
  borders: readonly Border[],
  merge?: string,
): boolean {
  const made = inSetting(session.getState().project, setting, borders);
  if (typeof made === 'string') {
    say('trouble', made);
    return false;
  }
  edit(label, (project) => changeQuilt(project, () => made), merge === undefined ? {} : { merge });
  quiltView.setState({ selection: [], step: 0 });
  return true;
}

/** Borders of a quilt that lies free. */
export function setBordersFree(borders: readonly Border[]): void {
  const { project } = session.getState();
  const quilt = quiltOf(project);
  const inside = quilt.places.filter(({ part }) => part !== 'border').map(({ id: _id, ...place }) => place);
  const made = bordered(inside as Parameters<typeof bordered>[0], borders, project.blocks, [], project.unit);
  if (!made.ok) say('trouble', made.message);
  else
    edit(phrase('Change borders'), (before) =>
      changeQuilt(before, (old) => ({ ...old, places: made.places, borders })),
    );
}

/** Changes a part of the quilt that lays nothing anew: how it is joined, finished, copied. */
export function changePart(label: string, change: (quilt: Quilt) => Quilt, merge?: string): void {
  edit(label, (project) => changeQuilt(project, change), merge === undefined ? {} : { merge });
}

/** The place chosen last, or the first there is. */
export function placeAtHand(): Place | null {
  const { project } = session.getState();
  const { selection } = quiltView.getState();
  const { places } = quiltOf(project);
  return places.find(({ id }) => id === selection.at(-1)) ?? places[0] ?? null;
}

/** Chooses the next place in a direction from the one chosen last: the nearest that lies more that way than across it. */
export function chooseBeside([dx, dy]: Point, adds: boolean): void {
  const project = shownProject(session.getState());
  const { pieces } = layoutOf(project);
  const { selection } = quiltView.getState();
  const here = pieces.find(({ place }) => place.id === selection.at(-1));
  if (!here) {
    const first = pieces[0];
    if (first) choose([first.place.id]);
    return;
  }
  const middle = (ring: (typeof pieces)[number]['polygon']): Point => {
    const { minX, minY, maxX, maxY } = boxOf(ring);
    return [(minX + maxX) / 2, (minY + maxY) / 2];
  };
  const [x, y] = middle(here.polygon);
  const beside = pieces
    .filter((piece) => piece !== here)
    .map((piece) => {
      const [px, py] = middle(piece.polygon);
      const along = (px - x) * dx + (py - y) * dy;
      const across = Math.abs((px - x) * dy) + Math.abs((py - y) * dx);
      return { piece, along, across };
    })
    .filter(({ along, across }) => along > 0.01 && across <= along + 0.01)
    .sort((a, b) => a.along + 2 * a.across - b.along - 2 * b.across)[0];
  if (!beside) return;
  const { id } = beside.piece.place;
  choose(adds ? [...selection.filter((one) => one !== id), id] : [id]);
}
