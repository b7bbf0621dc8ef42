import { parseSync } from 'vite';

/**
 * The texts of the app, read off its source: the messages that go through `phrase` and `<Phrase>`, and the texts that
 * should and do not.
 */

interface SyntaxNode {
  readonly type: string;
  readonly start: number;
  readonly [key: string]: unknown;
}

const isNode = (value: unknown): value is SyntaxNode =>
  typeof value === 'object' && value !== null && typeof (value as SyntaxNode).type === 'string';

const childrenOf = (node: SyntaxNode): SyntaxNode[] =>
  Object.values(node).flatMap((value) =>
    Array.isArray(value) ? value.filter(isNode) : isNode(value) ? [value] : [],
  );

const nameOf = (node: unknown): string | null =>
  isNode(node) && (node.type === 'Identifier' || node.type === 'JSXIdentifier')
    ? (node.name as string)
    : null;

/** A text that is written out: a literal, a template without values, several of them added up. Else null. */
function writtenOut(node: unknown): string | null {
  if (!isNode(node)) return null;
  if (node.type === 'Literal') return typeof node.value === 'string' ? node.value : null;
  if (node.type === 'JSXExpressionContainer') return writtenOut(node.expression);
  if (node.type === 'TemplateLiteral') {
    const quasis = node.quasis as { value: { cooked: string } }[];
    return quasis.length === 1 ? quasis[0]!.value.cooked : null;
  }
  if (node.type === 'BinaryExpression' && node.operator === '+') {
    const [left, right] = [writtenOut(node.left), writtenOut(node.right)];
    return left === null || right === null ? null : left + right;
  }
  return null;
}

export interface SourceMessage {
  readonly text: string;
  /** It may hold elements: `<b>…</b>`. */
  readonly hasTags: boolean;
}

export interface SourceTexts {
  readonly messages: readonly SourceMessage[];
  /** Calls whose message cannot be read off the source, by line. */
  readonly unreadable: readonly number[];
  /** Texts that do not go through a message, with their lines. */
  readonly bare: readonly (readonly [line: number, text: string])[];
}

const ATTRIBUTES =
  /^(title|aria-label|aria-description|aria-roledescription|aria-valuetext|placeholder|alt|label|text|hint|legend|heading|caption|unit|note|about)$/;

/** Something that people read, rather than a name in the program: two words or more, begun like a sentence. */
const isProse = (text: string): boolean =>
  /\p{L}{2}/u.test(text) &&
  (/^[\p{Lu}“‘][^\n]*\s\S/u.test(text) || /\p{L}{2,}[^.…]* \p{L}{2,}.*[.?!…]$/u.test(text));

/** Calls whose texts no person reads. */
const UNREAD_CALLS =
  /^(Error|TypeError|RangeError|RegExp|URL|Worker|querySelector|querySelectorAll|startsWith|endsWith|includes)$/;

/** Reads one file. Throws on text that is not TypeScript. */
export function textsOf(path: string, code: string): SourceTexts {
  const parsed = parseSync(path, code);
  if (parsed.errors[0]) throw new Error(`${path}: ${parsed.errors[0].message}`);
  const messages: SourceMessage[] = [];
  const unreadable: number[] = [];
  const bare: [number, string][] = [];
  const lineOf = (node: SyntaxNode): number => code.slice(0, node.start).split('\n').length;

  const take = (node: SyntaxNode, argument: unknown, hasTags: boolean): void => {
    const text = writtenOut(argument);
    if (text === null) unreadable.push(lineOf(node));
    else messages.push({ text, hasTags });
  };

  const walk = (node: SyntaxNode): void => {
    switch (node.type) {
      case 'ImportDeclaration':
      case 'ExportAllDeclaration':
      case 'TSLiteralType':
        return;
      case 'CallExpression':
      case 'NewExpression': {
        const callee = node.callee as SyntaxNode;
        const name = nameOf(callee.type === 'MemberExpression' ? callee.property : callee);
        const [first, ...rest] = node.arguments as SyntaxNode[];
        if (name === 'phrase' || name === 'phraseParts') {
          take(node, first, name === 'phraseParts');
          for (const one of rest) walk(one);
          return;
        }
        if (name !== null && UNREAD_CALLS.test(name)) return;
        break;
      }
      case 'JSXElement': {
        const opening = node.openingElement as SyntaxNode;
        if (nameOf(opening.name) === 'Phrase') {
          for (const attribute of opening.attributes as SyntaxNode[])
            if (nameOf(attribute.name) === 'text') take(node, attribute.value, true);
            else walk(attribute);
          return;
        }
        break;
      }
      case 'JSXAttribute': {
        const text = writtenOut(node.value);
        const name = isNode(node.name) && nameOf(node.name);
        if (text !== null) {
          if (name && ATTRIBUTES.test(name) && /\p{L}{2}/u.test(text)) bare.push([lineOf(node), text]);
          return;
        }
        break;
      }
      case 'JSXText':
        if (/\p{L}{2}/u.test(node.value as string)) bare.push([lineOf(node), (node.value as string).trim()]);
        return;
      case 'Literal':
        if (typeof node.value === 'string' && isProse(node.value)) bare.push([lineOf(node), node.value]);
        return;
      case 'TemplateLiteral': {
        const text = (node.quasis as { value: { cooked: string } }[])
          .map(({ value }) => value.cooked)
          .join('0');
        if (isProse(text)) bare.push([lineOf(node), text]);
        break;
      }
    }
    for (const child of childrenOf(node)) walk(child);
  };
  walk(parsed.program as unknown as SyntaxNode);
  return { messages, unreadable, bare };
}
