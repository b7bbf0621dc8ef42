import type { Project } from '../../document/project.ts';
import { isBlockPlace } from '../../document/quilt.ts';
import {
  BODY,
  draftsOf,
  type FlowItem,
  flowInto,
  HEADING,
  type PageDraft,
  type PageSetting,
  paragraph,
  readingFrame,
  SMALL,
  TITLE,
} from '../../foundations/booklet/flow.ts';
import { listed } from '../../piecing/sentences.ts';
import { phrase } from '../../words/phrase.ts';
import type { Layout } from '../layout.ts';
import { numbersOf, sizeWords } from '../words.ts';
import { drawn, FRONT } from './drawn.ts';
import { fitBox, numberMarks, outlineOf, pieceMarks } from './quilt-marks.ts';

/** The quilt with a number on every place, and the blocks with the numbers of theirs. */
export function mapPages(project: Project, layout: Layout, setting: PageSetting): PageDraft[] {
  const { typeface } = setting;
  const frame = readingFrame(setting);
  const { box, pieces } = layout;
  const numbers = numbersOf(layout);
  const size = sizeWords([box.maxX - box.minX, box.maxY - box.minY], project.unit);
  const where = new Map<string, number[]>();
  for (const { place } of pieces) {
    if (!isBlockPlace(place)) continue;
    const known = where.get(place.block) ?? [];
    known.push(numbers.get(place.id)!);
    where.set(place.block, known);
  }
  const names = project.blocks.flatMap(({ id, name }): FlowItem[] => {
    const found = where.get(id)?.sort((a, b) => a - b);
    if (!found) return [];
    return paragraph(
      typeface,
      phrase('{name}, {found, plural, one {# time} other {# times}}: {found2}', {
        name,
        found: found.length,
        found2: listed(found),
      }),
      BODY,
      frame.width,
      0.04,
    );
  });
  const plain = pieces.filter(({ place }) => !isBlockPlace(place)).length;
  const itemsAt = (share: number): FlowItem[] => {
    const fit = fitBox(box, frame.width, share * frame.height);
    return [
      ...paragraph(typeface, phrase('Quilt map'), TITLE, frame.width),
      ...paragraph(
        typeface,
        phrase('{size}, {pieces} places. {front}', { size, pieces: pieces.length, front: FRONT }),
        BODY,
        frame.width,
        0.03,
      ),
      drawn(
        fit,
        frame.width,
        [
          ...pieceMarks(pieces, project, fit, true),
          ...outlineOf(pieces, fit),
          ...numberMarks(pieces, numbers, fit, typeface),
        ],
        0.12,
      ),
      ...paragraph(typeface, phrase('Where each block lies'), HEADING, frame.width, 0.2).map((item) => ({
        ...item,
        keepsWithNext: true,
      })),
      ...names,
      ...(plain > 0
        ? paragraph(
            typeface,
            phrase('All others, {plain}, are plain pieces.', { plain }),
            SMALL,
            frame.width,
            0.06,
          )
        : []),
    ];
  };
  // A somewhat smaller map is better than a few names on a second page.
  const tries = [0.62, 0.54, 0.46, 0.4, 0.34].map((share) => flowInto(itemsAt(share), frame.height));
  return draftsOf(
    tries.find((pages) => pages.length === 1) ?? tries[0]!,
    frame,
    { part: 'guide', block: null, title: phrase('Quilt map') },
    setting,
  );
}
