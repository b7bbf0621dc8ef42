import type { PatchPiece } from '../../cutting/cutting-plan.ts';
import { clothOf, cutKey } from '../../cutting/piece.ts';
import { cutMark } from '../../document/cutting-choices.ts';
import { noteCut } from '../../document/edit-cloth.ts';
import type { Block, Unit } from '../../document/project.ts';
import { phrase } from '../../words/phrase.ts';
import { noteDone } from '../../workspace/actions.ts';
import { oneStop } from '../one-stop.ts';
import { fabricView } from './fabric-state.ts';
import { sizeWords } from './words.ts';

interface PiecesTableProps {
  readonly pieces: readonly PatchPiece[];
  readonly blocks: readonly Block[];
  readonly unit: Unit;
  readonly done: ReadonlySet<string>;
}

/** Every mark that a piece and its copies have when they are cut. */
const marksOf = (piece: PatchPiece): readonly string[] =>
  Array.from({ length: piece.copies }, (_, i) =>
    cutMark([piece.block, piece.key, piece.firstCopy + i], piece.piece.cut),
  );

/** The pieces of a fabric by size, the largest first, to tick off; each shows its proof when pressed. */
export function PiecesTable({ pieces, blocks, unit, done }: PiecesTableProps) {
  const groups = new Map<string, PatchPiece[]>();
  for (const piece of pieces) {
    const key = cutKey(piece.piece.cut);
    groups.set(key, [...(groups.get(key) ?? []), piece]);
  }
  const ordered = [...groups.values()].sort((a, b) => clothOf(b[0]!.piece.cut) - clothOf(a[0]!.piece.cut));
  const nameOf = new Map(blocks.map(({ id, name }) => [id, name]));
  return (
    <ul ref={oneStop} className="piece-groups">
      {ordered.map((group) => {
        const { cut } = group[0]!.piece;
        const marks = group.flatMap(marksOf);
        const isDone = marks.every((mark) => done.has(mark));
        const words = sizeWords(cut, unit);
        return (
          <li key={cutKey(cut)} className={isDone ? 'piece-group piece-group-done' : 'piece-group'}>
            <label className="piece-size">
              <input
                type="checkbox"
                checked={isDone}
                onChange={() => noteDone((project) => noteCut(project, marks, !isDone))}
              />
              <span>
                <b>{marks.length}</b> · {words}
              </span>
            </label>
            <span className="piece-patches">
              {group.map((piece) => (
                <button
                  key={`${piece.block}/${piece.key}`}
                  type="button"
                  className={piece.short.length > 0 ? 'piece-patch piece-patch-short' : 'piece-patch'}
                  title={phrase('{nameOf}, {patch}: see how it covers', {
                    nameOf: nameOf.get(piece.block) ?? piece.block,
                    patch: piece.patch,
                  })}
                  onClick={() => fabricView.setState({ proof: { block: piece.block, key: piece.key } })}
                >
                  {nameOf.get(piece.block) ?? piece.block} {piece.patch}
                  {piece.copies > 1 && ` ×${piece.copies}`}
                  {piece.short.length > 0 && phrase(' falls short')}
                </button>
              ))}
            </span>
          </li>
        );
      })}
    </ul>
  );
}
