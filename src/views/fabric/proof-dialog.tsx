import { useState } from 'react';
import { marginsOf } from '../../cutting/cover.ts';
import type { PatchPiece } from '../../cutting/cutting-plan.ts';
import { grownPatch } from '../../cutting/grown-patch.ts';
import { chooseSize } from '../../document/edit-cloth.ts';
import type { Fabric, Project } from '../../document/project.ts';
import { drawnFor } from '../../document/turned-over.ts';
import { formatLength, parseLength } from '../../geometry/length.ts';
import type { Ring } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import { edit } from '../../workspace/actions.ts';
import { makingAtHand } from '../../workspace/making.ts';
import { Choice } from '../choice.tsx';
import { Dialog } from '../dialog.tsx';
import { Icon } from '../icons.tsx';
import { LengthField } from '../length-field.tsx';
import { sizeWords } from './words.ts';

interface ProofDialogProps {
  readonly project: Project;
  readonly piece: PatchPiece;
  readonly fabric: Fabric | null;
  readonly onClose: () => void;
}

type Moment = 'laid' | 'pressed';

/** How the cloth of one patch is laid, swung over, and what it leaves beyond the allowance; its size by hand. */
export function ProofDialog({ project, piece, fabric, onClose }: ProofDialogProps) {
  const [moment, setMoment] = useState<Moment>('pressed');
  const { block, plan } = makingAtHand(project, new Map([[piece.block, 1]])).blocks[0] ?? {};
  const patch = plan?.patches.find(({ key }) => key === piece.key);
  const { unit, seamAllowance } = project;
  // What is 1/4 in but for the noise of numbers is said as 1/4 in.
  const said = (inches: number): string => formatLength(Math.round(inches * 1e4) / 1e4, unit);
  const name = `${block?.name ?? piece.block}, ${piece.patch}`;
  if (!block || !plan || !patch)
    return (
      <Dialog title={name} onClose={onClose}>
        <p>{phrase('The drawing has changed, and this patch is being worked out anew.')}</p>
      </Dialog>
    );
  const { laid } = piece.piece;
  const cloth = moment === 'laid' && laid ? laid : piece.piece.shape;
  const margins = marginsOf(piece.piece.shape, grownPatch(patch.polygon, seamAllowance));
  const least = Math.min(...margins.map(({ beyond }) => beyond));
  const short = margins.filter(({ missing }) => missing > 0);
  const everything = [...piece.piece.shape, ...(laid ?? []), ...patch.polygon];
  const { minX, minY, maxX, maxY } = boxOf(everything);
  const pad = 0.06 * Math.max(maxX - minX, maxY - minY);
  const px = Math.max(maxX - minX, maxY - minY) / 420;
  return (
    <Dialog title={name} className="proof-dialog" onClose={onClose}>
      <p>
        {patch.seam === null
          ? phrase('Position 1: the cloth is laid over the patch, right side up.')
          : phrase(
              'Sewn along its seam: laid right sides together with its edge {seamAllowance} past the seam, sewn, flipped over and pressed.',
              { seamAllowance: said(seamAllowance) },
            )}
      </p>
      <svg
        className="proof-drawing"
        viewBox={`${minX - pad} ${minY - pad} ${maxX - minX + 2 * pad} ${maxY - minY + 2 * pad}`}
        role="img"
        aria-label={phrase('The cloth over the patch. It reaches at least {least} beyond it on every side.', {
          least: said(least),
        })}
      >
        {plan.patches.map((other) => (
          <path
            key={other.key}
            d={pathOf(other.polygon)}
            fill={other.key === patch.key ? 'var(--indigo-wash)' : 'none'}
            stroke="var(--rule-strong)"
            strokeWidth={px}
          />
        ))}
        <path
          d={pathOf(cloth)}
          fill={fabric?.color ?? 'var(--ochre)'}
          fillOpacity={0.35}
          stroke="var(--ink)"
          strokeWidth={1.5 * px}
        />
        <path
          d={pathOf(patch.polygon)}
          fill="none"
          stroke="var(--indigo)"
          strokeWidth={2 * px}
          strokeDasharray={`${6 * px} ${4 * px}`}
        />
        {patch.seam && (
          <line
            x1={patch.seam[0][0]}
            y1={patch.seam[0][1]}
            x2={patch.seam[1][0]}
            y2={patch.seam[1][1]}
            stroke="var(--madder)"
            strokeWidth={3 * px}
          />
        )}
        {short.map(({ side, at }) => (
          <circle
            key={side}
            cx={at[0]}
            cy={at[1]}
            r={7 * px}
            className="proof-short"
            strokeWidth={2.5 * px}
          />
        ))}
      </svg>
      {laid && (
        <Choice
          label={phrase('Show the cloth')}
          isLabelShown={false}
          options={[
            ['laid', phrase('As it is laid')],
            ['pressed', phrase('Flipped over and pressed')],
          ]}
          value={moment}
          onChoose={setMoment}
        />
      )}
      <p className={short.length > 0 ? 'proof-verdict proof-verdict-short' : 'proof-verdict'}>
        <Icon name={short.length > 0 ? 'trouble' : 'good'} size={16} />
        {short.length > 0
          ? phrase(
              'It falls short by {max} at the corner{isShort, select, true {s} other {}} marked with a ring.',
              { max: said(Math.max(...short.map(({ missing }) => missing))), isShort: short.length > 1 },
            )
          : phrase(
              'It covers: at least {least} beyond the patch on every side, where {seamAllowance} is needed.',
              { least: said(least), seamAllowance: said(seamAllowance) },
            )}
      </p>
      <p className="soft">{phrase('Cut {sizeWords}.', { sizeWords: sizeWords(piece.piece.cut, unit) })}</p>
      <HandSizeForm project={project} piece={piece} />
    </Dialog>
  );
}

const pathOf = (ring: Ring): string => `M${ring.map(([x, y]) => `${x} ${y}`).join('L')}Z`;

function HandSizeForm({ project, piece }: { readonly project: Project; readonly piece: PatchPiece }) {
  const { unit } = project;
  const drawn = drawnFor(project, piece.block);
  const known = project.cutting?.sizes?.find(({ block, patch }) => block === drawn && patch === piece.key);
  const { width, height } = known ?? piece.piece.cut;
  const [texts, setTexts] = useState([formatLength(width, unit), formatLength(height, unit)] as const);
  const [w, h] = [parseLength(texts[0], unit), parseLength(texts[1], unit)];
  const isUsable = w.ok && h.ok && w.inches > 0 && h.inches > 0;
  const choose = (size: { width: number; height: number } | null): void =>
    edit(size ? phrase('Choose a size to cut') : phrase('Cut the size worked out'), (before) =>
      chooseSize(before, drawn, piece.key, size),
    );
  return (
    <form
      className="proof-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (isUsable) choose({ width: w.inches, height: h.inches });
      }}
    >
      <LengthField
        label={phrase('Width')}
        text={texts[0]}
        unit={unit}
        onChange={(text) => setTexts([text, texts[1]])}
      />
      <LengthField
        label={phrase('Height')}
        text={texts[1]}
        unit={unit}
        onChange={(text) => setTexts([texts[0], text])}
      />
      <div className="buttons">
        <button type="submit" className="button" disabled={!isUsable}>
          {phrase('Cut this size')}
        </button>
        {known && (
          <button type="button" className="button" onClick={() => choose(null)}>
            {phrase('Back to the size worked out')}
          </button>
        )}
      </div>
    </form>
  );
}
