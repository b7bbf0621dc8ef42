import type * as z from 'zod/mini';

export type JsonObject = { readonly [key: string]: unknown };

/** Turns a file of version `from` into one of version `from + 1`. */
export interface Migration {
  readonly from: number;
  /** The parts of a file of that version that the next has no longer; what else there is, is checked at the end. */
  readonly check?: z.ZodMiniType;
  /** Given only what has passed the check. */
  readonly migrate: (file: JsonObject) => JsonObject;
}
