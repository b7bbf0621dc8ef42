import type { Block, Cut, ProjectEdit, Unit } from '../../document/project.ts';
import { parseLength } from '../../geometry/length.ts';
import type { Point } from '../../geometry/point.ts';
import type { Patch } from '../../piecing/plan.ts';
import { phrase } from '../../words/phrase.ts';
import type { Chosen } from '../chosen.ts';
import { parseAngle } from '../typing.ts';

/** What a form works on: the recorded block and what is chosen in it. */
export interface Target {
  readonly block: Block;
  readonly unit: Unit;
  /** Chosen cuts, in the block's order. */
  readonly cuts: readonly Cut[];
  readonly chosen: Chosen | null;
  /** The chosen patch. */
  readonly patch: Patch | null;
  /** Step of the grid in use, inches. */
  readonly gridIn: number;
  /** Where the keyboard's crosshair stands, while it is in use. */
  readonly crosshair: Point | null;
}

export type FieldKind =
  /** Inches; typed as people write lengths. */
  | { readonly kind: 'length'; readonly initial: number; readonly mayBeNone?: boolean }
  /** Inches to the right or down, with a minus to the left or up. */
  | { readonly kind: 'shift'; readonly initial: number }
  | { readonly kind: 'count'; readonly initial: number; readonly least: number; readonly most: number }
  /** 0 to the right, against the clock. */
  | { readonly kind: 'degrees'; readonly initial: number }
  | { readonly kind: 'choice'; readonly options: readonly (readonly [string, string])[] };

export type Field = FieldKind & { readonly name: string; readonly label: string };

/** What is in a form's fields: inches, a count, degrees, or the option chosen. */
export type Values = Readonly<Record<string, number | string>>;

export type Work =
  | {
      readonly ok: true;
      /** As the history names it. */
      readonly label: string;
      readonly change: ProjectEdit;
      /** Spots to mark instead of changing anything. */
      readonly divisions?: readonly Point[];
      /** Cuts it adds are chosen afterwards. */
      readonly selectsNew?: boolean;
    }
  /** One plain sentence. */
  | { readonly ok: false; readonly error: string };

/** A job done with a few numbers: shown at once on the drawing, one step of the history when it is done. */
export interface Form {
  readonly name: string;
  /** As a menu or the palette names it. */
  readonly label: string;
  /** What its button does. */
  readonly act: string;
  readonly fits: (target: Target) => boolean;
  /** Which it is for, when it does not fit: `Choose a cut first.` */
  readonly needs: string;
  readonly fields: (target: Target) => readonly Field[];
  readonly work: (target: Target, values: Values) => Work;
}

export type ReadValues =
  | { readonly ok: true; readonly values: Values }
  /** Sentences by the name of the field. */
  | { readonly ok: false; readonly errors: Readonly<Record<string, string>> };

/** Reads what stands in the fields as text; each fault by its field. */
export function readValues(
  fields: readonly Field[],
  texts: Readonly<Record<string, string>>,
  unit: Unit,
): ReadValues {
  const values: Record<string, number | string> = {};
  const errors: Record<string, string> = {};
  for (const field of fields) {
    const read = readField(field, texts[field.name] ?? '', unit);
    if (typeof read === 'object') errors[field.name] = read.error;
    else values[field.name] = read;
  }
  return Object.keys(errors).length === 0 ? { ok: true, values } : { ok: false, errors };
}

function readField(field: Field, text: string, unit: Unit): number | string | { readonly error: string } {
  switch (field.kind) {
    case 'choice':
      return text;
    case 'length': {
      const parsed = parseLength(text, unit);
      if (!parsed.ok) return parsed;
      return parsed.inches > 0 || (field.mayBeNone === true && parsed.inches === 0)
        ? parsed.inches
        : { error: phrase('It must be greater than 0.') };
    }
    case 'shift': {
      const parsed = parseLength(text, unit);
      return parsed.ok ? parsed.inches : parsed;
    }
    case 'count': {
      const count = /^ *\d+ *$/.test(text) ? Number(text) : Number.NaN;
      return count >= field.least && count <= field.most
        ? count
        : {
            error: phrase('A whole number from {least} to {most}.', { least: field.least, most: field.most }),
          };
    }
    case 'degrees': {
      const parsed = parseAngle(text);
      return parsed.ok ? parsed.degrees : parsed;
    }
  }
}
