import type { Ring } from '../../geometry/point.ts';
import type { Tile } from './tiles.ts';

/** A whole number that a starting point can be drawn with. */
export interface CountParameter {
  readonly kind: 'count';
  readonly label: string;
  readonly least: number;
  readonly most: number;
  readonly usual: number;
}

/** One of a few ways that a starting point can be drawn. */
export interface ChoiceParameter<Way extends string = string> {
  readonly kind: 'choice';
  readonly label: string;
  readonly ways: readonly (readonly [Way, string])[];
  readonly usual: Way;
}

export type Parameter = CountParameter | ChoiceParameter;
export type Parameters = Readonly<Record<string, Parameter>>;

/** What each parameter is set to, by its key. */
export type Values = Readonly<Record<string, number | string>>;

type ValuesOf<P extends Parameters> = {
  readonly [Key in keyof P]: P[Key] extends ChoiceParameter<infer Way> ? Way : number;
};

/** A drawing on a grid: the tiles fill the outline without gap or overlap. Any unit, y down. */
export interface GridDrawing {
  readonly outline: Ring;
  readonly tiles: readonly Tile[];
}

/** A block to begin with. Which cuts, patches and foundations it has follows from its tiles and from `piece`. */
export interface Starter {
  readonly name: string;
  /** Other names the trade has for it, found by the search too. */
  readonly alsoCalled: readonly string[];
  readonly parameters: Parameters;
  readonly draw: (values: Values) => GridDrawing;
}

interface StarterSpec<P extends Parameters> {
  readonly name: string;
  readonly alsoCalled?: readonly string[];
  readonly parameters: P;
  readonly draw: (values: ValuesOf<P>) => GridDrawing;
}

export const count = (label: string, least: number, most: number, usual: number): CountParameter => ({
  kind: 'count',
  label,
  least,
  most,
  usual,
});

export const choice = <const Way extends string>(
  label: string,
  ways: readonly (readonly [Way, string])[],
  usual: NoInfer<Way>,
): ChoiceParameter<Way> => ({ kind: 'choice', label, ways, usual });

/** A starting point with parameters: its drawing sees only values that are within bounds. */
export const parametric = <P extends Parameters>(spec: StarterSpec<P>): Starter => ({
  name: spec.name,
  alsoCalled: spec.alsoCalled ?? [],
  parameters: spec.parameters,
  draw: (values) => spec.draw(withinBounds(spec.parameters, values) as ValuesOf<P>),
});

/** A starting point that is drawn in one way only, on a grid so many units wide and high. */
export const fixed = (
  name: string,
  tiles: readonly Tile[],
  width: number,
  height = width,
  alsoCalled: readonly string[] = [],
): Starter => ({
  name,
  alsoCalled,
  parameters: {},
  draw: () => ({ outline: box(width, height), tiles }),
});

export const box = (width: number, height = width): Ring => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];

export const usualValues = (parameters: Parameters): Values => withinBounds(parameters, {});

/** Every parameter with a value it can take: what is missing or of no use becomes the usual one. */
export function withinBounds(parameters: Parameters, values: Values): Values {
  return Object.fromEntries(
    Object.entries(parameters).map(([key, parameter]): [string, number | string] => {
      const value = values[key];
      if (parameter.kind === 'choice')
        return [key, parameter.ways.some(([way]) => way === value) ? value! : parameter.usual];
      if (typeof value !== 'number' || !Number.isFinite(value)) return [key, parameter.usual];
      return [key, Math.max(parameter.least, Math.min(parameter.most, Math.round(value)))];
    }),
  );
}
