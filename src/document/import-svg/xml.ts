import { SaxesParser } from 'saxes';
import { phrase } from '../../words/phrase.ts';

/**
 * A drawing's XML as a stream of elements, as they begin and end. Nothing is looked up, fetched or run. Entities that
 * a file defines for itself are never spelled out: a value that holds one comes with the reference in it, as it was
 * written.
 */

export type XmlStep =
  | {
      readonly kind: 'begin';
      /** Without its prefix, `svg:path` → `path`; as written, for names are told apart by case. */
      readonly name: string;
      readonly attributes: ReadonlyMap<string, string>;
    }
  | { readonly kind: 'end'; readonly name: string };

export interface XmlFault {
  /** What is wrong, as a sentence without its subject: `ends in the middle of a tag`. */
  readonly message: string;
}

/** Deeper nesting than this is no drawing. */
export const MAX_DEPTH = 500;

/** More elements than this are not read. */
export const MAX_ELEMENTS = 500_000;

/** What the parser says of a file, and what is said of it here, the first that fits. All else does a drawing no harm. */
const FAULTS: readonly (readonly [said: RegExp, message: string])[] = [
  [/unexpected end|unclosed tag/, phrase('ends before all is closed that was begun')],
  [/close tag|closing tag/, phrase('closes what is not open')],
  [/attribute without value/, phrase('has a tag with a value missing')],
  [/unquoted attribute/, phrase('has a tag with a value not in quotes')],
  [
    /tag name|attribute name|forward-slash|whitespace between attributes/,
    phrase('has a tag that cannot be read'),
  ],
];

/** Thrown through the parser to leave it. */
class Left extends Error {
  constructor(readonly fault: XmlFault | null) {
    super();
  }
}

/** Characters read between two words on how far it has come. */
const STRETCH = 500_000;

/**
 * Reads a document and hands over its steps in turn, until `visit` answers false or a fault is found; null when it
 * was read to its end, or left early on request. `onShare` is told now and then how much has been read, 0 to 1.
 * Cost: O(length).
 */
export function readXml(
  text: string,
  visit: (step: XmlStep) => boolean,
  onShare: (share: number) => void = () => undefined,
): XmlFault | null {
  const parser = new SaxesParser({ position: false });
  let attributes = new Map<string, string>();
  let [elements, depth] = [0, 0];
  const hand = (step: XmlStep): void => {
    if (!visit(step)) throw new Left(null);
  };
  parser.on('error', ({ message }) => {
    const fault = FAULTS.find(([said]) => said.test(message));
    if (fault) throw new Left({ message: fault[1] });
  });
  parser.on('attribute', ({ name, value }) => {
    // The first of two alike counts; a prefixed one (xlink:href) keeps its prefix and stands for nothing here.
    if (!attributes.has(name)) attributes.set(name, value);
  });
  parser.on('opentag', ({ name }) => {
    if (++elements > MAX_ELEMENTS)
      throw new Left({
        message: phrase('has more than {maxElements, number} parts', { maxElements: MAX_ELEMENTS }),
      });
    if (++depth > MAX_DEPTH)
      throw new Left({ message: phrase('is nested deeper than {maxDepth} levels', { maxDepth: MAX_DEPTH }) });
    const own = attributes;
    attributes = new Map();
    hand({ kind: 'begin', name: localName(name), attributes: own });
  });
  parser.on('closetag', ({ name }) => {
    depth--;
    hand({ kind: 'end', name: localName(name) });
  });
  try {
    for (let at = 0; at < text.length; at += STRETCH) {
      if (at > 0) onShare(at / text.length);
      parser.write(text.slice(at, at + STRETCH));
    }
    parser.close();
    return null;
  } catch (thrown) {
    if (thrown instanceof Left) return thrown.fault;
    throw thrown;
  }
}

const localName = (name: string): string => name.slice(name.indexOf(':') + 1);
