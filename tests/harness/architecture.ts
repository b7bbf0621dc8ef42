import { dirname, join, normalize } from 'node:path/posix';
import { parseSync } from 'vite';

/**
 * The rules of the house, read off the source text: which folder may import which, what the pure folders must
 * not touch, no import cycles, no import of a file that is not there.
 */

/** Top to bottom; a folder imports from itself and from those above it. */
export const FOLDERS = [
  'words',
  'geometry',
  'piecing',
  'document',
  'editing',
  'picturing',
  'making',
  'cutting',
  'foundations',
  'quilt',
  'rounds',
  'workspace',
  'board',
  'views',
  'cli',
] as const;

const PURE: ReadonlySet<string> = new Set(FOLDERS.slice(0, FOLDERS.indexOf('workspace')));

/** Packages of screens, stores, threads and chance: never in a pure folder, nor in the command line. */
const SCREEN_PACKAGES =
  /^(react|react-dom|react-konva|konva|zustand|idb-keyval|comlink|nanoid|its-fine)(\/|$)/;

/** The browser, the clock, the network, chance: what makes the same question give two answers. */
const BANNED_GLOBALS: ReadonlySet<string> = new Set([
  'window',
  'document',
  'navigator',
  'location',
  'history',
  'screen',
  'self',
  'globalThis',
  'localStorage',
  'sessionStorage',
  'indexedDB',
  'caches',
  'performance',
  'Date',
  'Temporal',
  'setTimeout',
  'setInterval',
  'setImmediate',
  'clearTimeout',
  'clearInterval',
  'queueMicrotask',
  'requestAnimationFrame',
  'cancelAnimationFrame',
  'requestIdleCallback',
  'fetch',
  'XMLHttpRequest',
  'WebSocket',
  'Worker',
  'crypto',
  'alert',
  'confirm',
  'prompt',
  'Image',
  'Audio',
  'FileReader',
  'OffscreenCanvas',
  'process',
  'require',
]);

const DOM_TYPES =
  /^((HTML|SVG)\w*Element|Window|Document|Element|Event|(Mouse|Pointer|Keyboard|Touch|Drag|UI|Wheel)Event|EventTarget|DOMRect|DOMPoint|CanvasRenderingContext2D|OffscreenCanvas|Storage|Navigator)$/;

interface SyntaxNode {
  readonly type: string;
  readonly [key: string]: unknown;
}

const isNode = (value: unknown): value is SyntaxNode =>
  typeof value === 'object' && value !== null && typeof (value as SyntaxNode).type === 'string';

function childrenOf(node: SyntaxNode): [key: string, child: SyntaxNode][] {
  return Object.entries(node).flatMap(([key, value]): [string, SyntaxNode][] =>
    Array.isArray(value)
      ? value.filter(isNode).map((child) => [key, child])
      : isNode(value)
        ? [[key, value]]
        : [],
  );
}

const nameOf = (node: unknown): string | null =>
  isNode(node) && (node.type === 'Identifier' || node.type === 'JSXIdentifier')
    ? (node.name as string)
    : null;

const textOf = (node: unknown): string | null =>
  isNode(node) && node.type === 'Literal' && typeof node.value === 'string' ? node.value : null;

/** Names a pattern binds: `a`, `{ b, c: d }`, `[e, ...f]`, `g = 1`. */
function boundNames(pattern: unknown): string[] {
  if (!isNode(pattern)) return [];
  switch (pattern.type) {
    case 'Identifier':
      return [pattern.name as string];
    case 'ObjectPattern':
      return (pattern.properties as SyntaxNode[]).flatMap((p) =>
        boundNames(p.type === 'RestElement' ? p.argument : p.value),
      );
    case 'ArrayPattern':
      return (pattern.elements as unknown[]).flatMap(boundNames);
    case 'AssignmentPattern':
      return boundNames(pattern.left);
    case 'RestElement':
      return boundNames(pattern.argument);
    case 'TSParameterProperty':
      return boundNames(pattern.parameter);
    default:
      return [];
  }
}

/** Names a statement declares in the scope it stands in. */
function declaredNames(statement: SyntaxNode): string[] {
  switch (statement.type) {
    case 'VariableDeclaration':
      return (statement.declarations as SyntaxNode[]).flatMap((declaration) => boundNames(declaration.id));
    case 'FunctionDeclaration':
    case 'ClassDeclaration':
    case 'TSEnumDeclaration':
    case 'TSInterfaceDeclaration':
    case 'TSTypeAliasDeclaration':
      return boundNames(statement.id);
    case 'ImportDeclaration':
      return (statement.specifiers as SyntaxNode[]).flatMap((specifier) => boundNames(specifier.local));
    case 'ExportNamedDeclaration':
    case 'ExportDefaultDeclaration':
      return isNode(statement.declaration) ? declaredNames(statement.declaration) : [];
    default:
      return [];
  }
}

/** Names a node makes known to everything inside it. */
function scopeNames(node: SyntaxNode): string[] {
  switch (node.type) {
    case 'Program':
    case 'BlockStatement':
    case 'StaticBlock':
      return (node.body as SyntaxNode[]).flatMap(declaredNames);
    case 'SwitchStatement':
      return (node.cases as SyntaxNode[]).flatMap((c) =>
        (c.consequent as SyntaxNode[]).flatMap(declaredNames),
      );
    case 'FunctionDeclaration':
    case 'FunctionExpression':
    case 'ArrowFunctionExpression':
      return [...boundNames(node.id), ...(node.params as unknown[]).flatMap(boundNames)];
    case 'ClassExpression':
      return boundNames(node.id);
    case 'CatchClause':
      return boundNames(node.param);
    case 'ForStatement':
      return isNode(node.init) ? declaredNames(node.init) : [];
    case 'ForOfStatement':
    case 'ForInStatement':
      return isNode(node.left) ? declaredNames(node.left) : [];
    default:
      return [];
  }
}

/** An identifier that names a key or a label, not a value. */
function isOnlyAName(key: string, parent: SyntaxNode): boolean {
  switch (parent.type) {
    case 'MemberExpression':
      return key === 'property' && !parent.computed;
    case 'Property':
    case 'MethodDefinition':
    case 'PropertyDefinition':
    case 'AccessorProperty':
      return key === 'key' && !parent.computed && !parent.shorthand;
    case 'ImportSpecifier':
    case 'ImportDefaultSpecifier':
    case 'ImportNamespaceSpecifier':
    case 'LabeledStatement':
    case 'BreakStatement':
    case 'ContinueStatement':
    case 'MetaProperty':
      return true;
    case 'ExportSpecifier':
      return key === 'exported';
    default:
      return false;
  }
}

/** TypeScript's own nodes hold types, except these, which hold values. */
const VALUE_NODES: ReadonlySet<string> = new Set([
  'TSAsExpression',
  'TSSatisfiesExpression',
  'TSNonNullExpression',
  'TSTypeAssertion',
  'TSInstantiationExpression',
  'TSEnumDeclaration',
  'TSEnumBody',
  'TSEnumMember',
  'TSParameterProperty',
  'TSExportAssignment',
]);

/** What one file imports and which globals it uses. `specifier` null: an import that cannot be read. */
export interface FileFacts {
  readonly imports: readonly (string | null)[];
  readonly globals: readonly string[];
  readonly hasJsx: boolean;
}

/** Reads a source file. Throws on text that is not TypeScript. */
export function factsOf(path: string, code: string): FileFacts {
  const parsed = parseSync(path, code);
  const error = parsed.errors[0];
  if (error) throw new Error(`${path}: ${error.message}`);
  const imports: (string | null)[] = [];
  const globals = new Set<string>();
  let hasJsx = false;

  const walk = (
    node: SyntaxNode,
    key: string,
    parent: SyntaxNode | null,
    known: readonly ReadonlySet<string>[],
    inType: boolean,
  ): void => {
    const scopes = [...known, new Set(scopeNames(node))];
    const isKnown = (name: string): boolean => scopes.some((scope) => scope.has(name));
    const isType = inType || (node.type.startsWith('TS') && !VALUE_NODES.has(node.type));
    if (node.type.startsWith('JSX')) hasJsx = true;
    switch (node.type) {
      case 'ImportDeclaration':
      case 'ExportAllDeclaration':
      case 'ExportNamedDeclaration':
        if (isNode(node.source)) imports.push(textOf(node.source));
        break;
      case 'ImportExpression':
        imports.push(textOf(node.source));
        break;
      case 'TSImportType':
        imports.push(
          textOf(
            isNode(node.argument) && node.argument.type === 'TSLiteralType'
              ? node.argument.literal
              : (node.source ?? node.argument),
          ),
        );
        break;
      case 'TSExternalModuleReference':
        imports.push(textOf(node.expression));
        break;
      case 'NewExpression': {
        // Workers and assets: new URL('./worker.ts', import.meta.url).
        const [first, second] = node.arguments as SyntaxNode[];
        const base =
          isNode(second) && second.type === 'MemberExpression' && isNode(second.object)
            ? second.object.type
            : null;
        if (nameOf(node.callee) === 'URL' && base === 'MetaProperty') imports.push(textOf(first));
        break;
      }
      case 'CallExpression': {
        const callee = node.callee;
        if (nameOf(callee) === 'require') imports.push(textOf((node.arguments as SyntaxNode[])[0]));
        // import.meta.glob hides what it imports.
        if (
          isNode(callee) &&
          callee.type === 'MemberExpression' &&
          isNode(callee.object) &&
          callee.object.type === 'MetaProperty' &&
          nameOf(callee.property) === 'glob'
        )
          imports.push(null);
        break;
      }
      case 'TSTypeReference': {
        const name = nameOf(node.typeName);
        if (name && DOM_TYPES.test(name) && !isKnown(name)) globals.add(name);
        break;
      }
      case 'Identifier': {
        const name = node.name as string;
        if (isType || !parent || isOnlyAName(key, parent) || isKnown(name)) break;
        if (BANNED_GLOBALS.has(name)) globals.add(name);
        if (name === 'Math' && !isHarmlessMath(parent)) globals.add('Math.random');
        break;
      }
    }
    for (const [childKey, child] of childrenOf(node)) walk(child, childKey, node, scopes, isType);
  };
  walk(parsed.program as unknown as SyntaxNode, 'program', null, [], false);
  return { imports, globals: [...globals], hasJsx };
}

/** `Math.floor`, `const { max } = Math`: anything but chance, and nothing that could hide it. */
function isHarmlessMath(parent: SyntaxNode): boolean {
  if (parent.type === 'MemberExpression') return !parent.computed && nameOf(parent.property) !== 'random';
  if (parent.type !== 'VariableDeclarator' || !isNode(parent.id) || parent.id.type !== 'ObjectPattern')
    return false;
  return (parent.id.properties as SyntaxNode[]).every(
    (p) => p.type === 'Property' && !p.computed && nameOf(p.key) !== 'random',
  );
}

/**
 * All breaches of the rules in a source tree. `sources`: text by path below src/, such as `geometry/ring.ts`.
 * `hasAsset`: is there a file of another kind (a style sheet, a font) at this path below src/?
 */
export function architectureFaults(
  sources: ReadonlyMap<string, string>,
  hasAsset: (path: string) => boolean,
): string[] {
  const faults: string[] = [];
  const graph = new Map<string, string[]>();
  for (const [path, code] of sources) {
    const folder = path.includes('/') ? path.slice(0, path.indexOf('/')) : null;
    const rank = folder === null ? FOLDERS.length : FOLDERS.indexOf(folder as (typeof FOLDERS)[number]);
    if (rank < 0) faults.push(`${path} lies in ${folder}, which is no folder of the house`);
    const isPure = folder !== null && PURE.has(folder);
    const facts = factsOf(path, code);
    for (const name of isPure ? facts.globals : []) faults.push(`${path} uses ${name} in a pure folder`);
    if (isPure && (facts.hasJsx || path.endsWith('.tsx')))
      faults.push(`${path} holds markup in a pure folder`);
    const edges: string[] = [];
    graph.set(path, edges);
    for (const specifier of facts.imports) {
      if (specifier === null) {
        faults.push(`${path} imports something that cannot be read off its text`);
      } else if (specifier.startsWith('.')) {
        const target = normalize(join(dirname(path), specifier.replace(/\?.*$/, '')));
        if (target.startsWith('..')) faults.push(`${path} imports ${specifier} from outside src`);
        else if (!sources.has(target) && !hasAsset(target))
          faults.push(`${path} imports ${target}, which is not there`);
        else {
          if (sources.has(target)) edges.push(target);
          const other = target.includes('/') ? target.slice(0, target.indexOf('/')) : null;
          const isAbove = other !== null && FOLDERS.indexOf(other as (typeof FOLDERS)[number]) <= rank;
          const isAllowed =
            folder === 'cli'
              ? other === 'cli' || (other !== null && PURE.has(other))
              : isAbove || folder === null;
          if (!isAllowed) faults.push(`${path} imports ${target}, against the order of the folders`);
        }
      } else if ((isPure || folder === 'cli') && SCREEN_PACKAGES.test(specifier)) {
        faults.push(`${path} imports ${specifier} in a folder without a screen`);
      } else if (specifier.startsWith('node:') && folder !== 'cli') {
        faults.push(`${path} imports ${specifier}, which no browser has`);
      }
    }
  }
  return [...faults, ...cyclesOf(graph)];
}

/** One sentence for each cycle of imports that a walk in depth runs into. */
function cyclesOf(graph: ReadonlyMap<string, readonly string[]>): string[] {
  const faults: string[] = [];
  const done = new Set<string>();
  const trail: string[] = [];
  const visit = (path: string): void => {
    const at = trail.indexOf(path);
    if (at >= 0) {
      faults.push(`${[...trail.slice(at), path].join(' → ')} is a cycle`);
      return;
    }
    if (done.has(path)) return;
    trail.push(path);
    for (const next of graph.get(path) ?? []) visit(next);
    trail.pop();
    done.add(path);
  };
  for (const path of graph.keys()) visit(path);
  return faults;
}
