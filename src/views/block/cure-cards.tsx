import { useStore } from 'zustand';
import type { Block } from '../../document/project.ts';
import type { Mend, MendKind } from '../../piecing/mending/draft.ts';
import { outcomeOf } from '../../piecing/mending/words.ts';
import { type Cure, keepsPicture } from '../../piecing/repairs/cure.ts';
import { gainWords, pictureWords } from '../../piecing/repairs/words.ts';
import { phrase } from '../../words/phrase.ts';
import { session } from '../../workspace/session.ts';
import { Icon } from '../icons.tsx';
import { type CurePress, useCurePress } from './cure-press.ts';
import { PlanPicture } from './plan-picture.tsx';

interface CureProps {
  readonly block: Block;
  readonly cure: Cure;
  readonly onApply: () => void;
}

/** A cure in a sentence, with what it gains. */
export function CureCard({ block, cure, onApply }: CureProps) {
  const press = useCurePress(block, cure, onApply);
  const unit = useStore(session, ({ project }) => project.unit);
  return (
    <div ref={press.box} className="repair-card" data-lit={press.isShown}>
      <button type="button" className="repair" {...press.button}>
        <Icon name="repair" size={18} />
        <span>
          {cure.sentence}
          <span className="repair-gain">{gainWords(cure)}</span>
          {!keepsPicture(cure) && <span className="repair-gain">{pictureWords(cure, unit)}</span>}
          {cure.after.setInCorners > 0 && (
            <span className="repair-gain">{phrase("A first step: straight seams won't do yet.")}</span>
          )}
        </span>
      </button>
      <HeldActs press={press} />
    </div>
  );
}

/** Asked of a finger once the board shows what it would be. */
export function HeldActs({ press: { isHeld, apply, button } }: { readonly press: CurePress }) {
  if (!isHeld) return null;
  return (
    <div className="buttons repair-acts">
      <button type="button" className="button button-main" onClick={apply}>
        {phrase('Apply')}
      </button>
      <button type="button" className="button" onClick={button.onClick}>
        {phrase('Leave it as it is')}
      </button>
    </div>
  );
}

const WAY_NAMES: Readonly<Record<MendKind, string>> = {
  'fewest-patches': phrase('Fewest patches'),
  symmetric: phrase('Symmetric'),
  'fewer-foundations': phrase('Fewer foundations'),
};

/** CSS pixels of the picture of a way, where it stands alone and beside others. */
const ALONE_PX = 92;
const BESIDE_PX = 118;

/** Ways to mend a block, each with a small picture: one across the panel, several side by side. */
export function Ways({
  block,
  ways,
  onApply,
}: Pick<CureProps, 'block' | 'onApply'> & { readonly ways: readonly Cure[] }) {
  return (
    <ol className={ways.length > 1 ? 'ways ways-beside' : 'ways'}>
      {ways.map((cure) => (
        <li key={cure.id}>
          <Way block={block} cure={cure} isAlone={ways.length === 1} onApply={onApply} />
        </li>
      ))}
    </ol>
  );
}

function Way({ block, cure, isAlone, onApply }: CureProps & { readonly isAlone: boolean }) {
  const press = useCurePress(block, cure, onApply);
  const { mended, before, after } = cure;
  if (!mended) return <CureCard block={block} cure={cure} onApply={onApply} />;
  return (
    <div ref={press.box} className="repair-card" data-lit={press.isShown}>
      <button type="button" className="repair way" {...press.button}>
        <span className="only-heard">{phrase('Make it sewable, picture kept:')} </span>
        <PlanPicture plan={mended.plan} size={isAlone ? ALONE_PX : BESIDE_PX} added={mended.lines} />
        <span className="way-words">
          {!isAlone && <b>{WAY_NAMES[mended.kind]}</b>}
          <span>{outcomeOf(mended)}.</span>
          <span className="repair-gain">
            {isAlone
              ? gainWords(cure)
              : phrase('{added, plural, one {# patch} other {# patches}} added', { added: mended.added })}
          </span>
          {notesOn(mended, before.cautions, after.cautions).map((note) => (
            <span key={note} className="repair-gain">
              {note}
            </span>
          ))}
        </span>
      </button>
      <HeldActs press={press} />
    </div>
  );
}

function notesOn(mended: Mend, cautionsBefore: number, cautionsAfter: number): readonly string[] {
  const { kind, isProven, isSymmetric, pulled } = mended;
  const more = cautionsAfter - cautionsBefore;
  return [
    ...(kind === 'fewest-patches' && !isProven ? [phrase('Perhaps not the fewest patches.')] : []),
    ...(kind !== 'symmetric' && isSymmetric ? [phrase('Symmetric too.')] : []),
    ...(pulled.length > 0
      ? [
          phrase('{pulled, plural, one {# loose end} other {# loose ends}} pulled in.', {
            pulled: pulled.length,
          }),
        ]
      : []),
    ...(more > 0
      ? [phrase('{more, plural, one {# awkward place} other {# awkward places}} more.', { more })]
      : []),
  ];
}
