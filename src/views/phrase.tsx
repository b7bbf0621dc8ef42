import { Fragment, type ReactNode } from 'react';
import { phraseParts } from '../words/phrase.ts';

/** A value of a message: what `{name}` stands for, or what a tag makes of the text between. */
type Value = ReactNode | Date | ((text: ReactNode) => ReactNode);

/** Plain tags that every such text may use. */
const TAGS: Readonly<Record<string, (text: ReactNode) => ReactNode>> = {
  b: (text) => <b>{text}</b>,
  em: (text) => <em>{text}</em>,
  kbd: (text) => <kbd>{text}</kbd>,
};

const keyed = (parts: readonly ReactNode[]): ReactNode =>
  // biome-ignore lint/suspicious/noArrayIndexKey: the parts of a text never change places.
  parts.map((part, i) => <Fragment key={i}>{part}</Fragment>);

/**
 * A text with elements in it, in the language chosen: `<Phrase text="Take the <b>Line</b> tool, {key}." values={{ key }} />`,
 * where `text` is written out in English; see `phrase`. Values may be elements.
 */
export function Phrase({
  text,
  values = {},
}: {
  readonly text: string;
  readonly values?: Readonly<Record<string, Value>>;
}) {
  const made = Object.fromEntries(
    Object.entries({ ...TAGS, ...values }).map(([name, value]) => [
      name,
      typeof value === 'function' ? (parts: ReactNode[]) => value(keyed(parts)) : value,
    ]),
  );
  return <>{keyed(phraseParts<ReactNode>(text, made))}</>;
}
