import { type ParseArgsConfig, parseArgs } from 'node:util';
import { phrase } from '../words/phrase.ts';
import { WrongUsage } from './trouble.ts';

/** Where a command writes. */
export interface Output {
  /** What was asked for. */
  readonly out: (content: string | Uint8Array) => void;
  /** Remarks, a line each. */
  readonly remark: (line: string) => void;
}

/** How a command went: 0 done, 1 the file or the request is at fault. */
export type ExitStatus = 0 | 1;

export interface Command {
  readonly name: string;
  /** One line for the list of commands. */
  readonly summary: string;
  /** All that `--help` says. */
  readonly help: string;
  /** Throws `Refusal` or `WrongUsage`. */
  readonly run: (args: readonly string[], output: Output) => Promise<ExitStatus> | ExitStatus;
}

type Options = NonNullable<ParseArgsConfig['options']>;

/** The one file named and the options given. Unknown and repeated options, and more or fewer files, are wrong usage. */
export function readArgs<const Config extends Options>(
  command: string,
  args: readonly string[],
  options: Config,
) {
  try {
    const { values, positionals, tokens } = parseArgs({
      args: joinedNumbers(args, options),
      options,
      allowPositionals: true,
      strict: true,
      tokens: true,
    });
    const seen = new Set<string>();
    for (const token of tokens) {
      if (token.kind !== 'option') continue;
      if (seen.has(token.name)) throw new WrongUsage(`--${token.name} is given twice.`);
      seen.add(token.name);
    }
    const [file, ...more] = positionals;
    if (file === undefined) throw new WrongUsage(phrase('{command} needs the name of a file.', { command }));
    if (more.length > 0)
      throw new WrongUsage(
        phrase('{command} takes one file, not {positionals}.', { command, positionals: positionals.length }),
      );
    return { file, values };
  } catch (thrown) {
    if (!(thrown instanceof TypeError)) throw thrown;
    // Node's own words go on with advice about dashes after the first sentence.
    throw new WrongUsage(`${thrown.message.split(/\. |\n/)[0]?.replace(/\.$/, '')}.`);
  }
}

/** `--margin -1` as `--margin=-1`: a number below nothing is a value, if no good one, and not another option. */
function joinedNumbers(args: readonly string[], options: Options): string[] {
  const joined: string[] = [];
  for (let i = 0; i < args.length; i++) {
    const arg = args[i]!;
    if (arg === '--') return [...joined, ...args.slice(i)];
    const next = args[i + 1];
    const takesText = arg.startsWith('--') && options[arg.slice(2)]?.type === 'string';
    if (takesText && next !== undefined && /^-[\d.]/.test(next)) {
      joined.push(`${arg}=${next}`);
      i++;
    } else joined.push(arg);
  }
  return joined;
}
