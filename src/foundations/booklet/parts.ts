import { phrase } from '../../words/phrase.ts';

/** What a page of a booklet is for, beside the foundations. */
export type PagePart =
  | 'cover'
  | 'cautions'
  | 'freezer'
  | 'cutting'
  | 'guide'
  | 'line-drawing'
  | 'templates'
  | 'labels'
  | 'index';

/** What can be printed: the foundations, and each other kind of page. */
export type BookletPart = 'foundations' | PagePart;

/** The parts in the order in which they stand in a booklet. */
export const BOOKLET_PARTS: readonly BookletPart[] = [
  'cover',
  'cautions',
  'freezer',
  'cutting',
  'guide',
  'line-drawing',
  'labels',
  'templates',
  'index',
  'foundations',
];

/** What a person calls the parts. */
export const PART_NAMES: Readonly<Record<BookletPart, string>> = {
  foundations: phrase('Foundations'),
  guide: phrase('Joining guide'),
  cover: phrase('Cover'),
  'line-drawing': phrase('Line drawing to colour'),
  templates: phrase('Cutting templates'),
  labels: phrase('Labels for piles'),
  cautions: phrase('Cautions'),
  freezer: phrase('Freezer paper'),
  index: phrase('Sheet index'),
  cutting: phrase('Cutting list'),
};

/** An entry of a file's outline. */
export interface Bookmark {
  readonly title: string;
  /** Index of the sheet it leads to. */
  readonly sheet: number;
  readonly within: readonly Bookmark[];
}
