import { del, entries, set, type UseStore } from 'idb-keyval';
import { checkName } from '../document/limits.ts';
import { type Part, readPart } from '../editing/part.ts';
import { openKeep } from './keep/keep.ts';
import { newId } from './keep/records.ts';

/** A part of a drawing kept under a name; all projects of this browser share it. */
export interface Motif {
  readonly id: string;
  readonly name: string;
  readonly part: Part;
  /** Milliseconds since 1970. */
  readonly created: number;
  /** When it was taken off the shelf; it can be brought back for a while. */
  readonly deleted?: number;
}

/** A motif taken off the shelf can be brought back for so long. */
export const DAYS_TO_RETURN = 30;

let shelf: UseStore | null = null;
const opened = (): UseStore => {
  shelf ??= openKeep('underpaper-motifs');
  return shelf;
};

/** Every motif kept, the newest first, those taken off lately after them. Fails where the browser keeps nothing. */
export async function listMotifs(now = Date.now()): Promise<readonly Motif[]> {
  const all = (await entries<string, unknown>(opened())).flatMap(([, value]) => readMotif(value) ?? []);
  const oldest = now - DAYS_TO_RETURN * 86_400_000;
  const gone = all.filter(({ deleted }) => deleted !== undefined && deleted < oldest);
  await Promise.all(gone.map(({ id }) => del(id, opened())));
  return all
    .filter((one) => !gone.includes(one))
    .toSorted(
      (a, b) => Number(a.deleted !== undefined) - Number(b.deleted !== undefined) || b.created - a.created,
    );
}

export async function keepMotif(name: string, part: Part, now = Date.now()): Promise<void> {
  const id = newId();
  await set(id, { id, name, part, created: now } satisfies Motif, opened());
}

/** Takes a motif off the shelf, or brings it back. */
export async function setMotifDeleted(motif: Motif, isDeleted: boolean, now = Date.now()): Promise<void> {
  const { deleted: _, ...rest } = motif;
  await set(motif.id, isDeleted ? { ...rest, deleted: now } : rest, opened());
}

const FORMAT = 'underpaper-motifs';

/** Motifs as a file, for another browser. */
export const motifsToText = (motifs: readonly Motif[]): string =>
  `${JSON.stringify({ format: FORMAT, motifs: motifs.map(({ name, part }) => ({ name, part })) })}\n`;

/** Keeps every motif of a file; how many there were, or null where it is no file of motifs. */
export async function keepMotifsOf(text: string): Promise<number | null> {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return null;
  }
  if (!isRecord(json) || json.format !== FORMAT || !Array.isArray(json.motifs)) return null;
  const read = json.motifs.flatMap(
    (value: unknown) => readMotif({ id: 'new', created: 0, ...Object(value) }) ?? [],
  );
  for (const { name, part } of read) await keepMotif(name, part);
  return read.length;
}

function readMotif(value: unknown): Motif | null {
  if (!isRecord(value) || !isRecord(value.part)) return null;
  const { id, name, created, deleted } = value;
  const part = readPart(value.part);
  if (typeof id !== 'string' || typeof name !== 'string' || typeof created !== 'number' || part === null)
    return null;
  const checked = checkName(name);
  if (!checked.ok) return null;
  return { id, name: checked.value, created, part, ...(typeof deleted === 'number' ? { deleted } : {}) };
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null;
