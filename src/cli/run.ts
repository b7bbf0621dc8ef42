import { oneLine } from '../document/file-place.ts';
import { phrase } from '../words/phrase.ts';
import { check } from './check.ts';
import type { Command, Output } from './command.ts';
import { cutting } from './cutting.ts';
import { foundations } from './foundations.ts';
import { mend } from './mend.ts';
import { picture } from './picture.ts';
import { quilt } from './quilt.ts';
import { rounds } from './rounds.ts';
import { Refusal, WrongUsage } from './trouble.ts';

const COMMANDS: readonly Command[] = [check, foundations, mend, cutting, quilt, rounds, picture];

/** Runs one command line. Exit status: 0 done, 1 the file or the request is at fault, 2 wrong usage. */
export async function run(args: readonly string[], output: Output): Promise<0 | 1 | 2> {
  const [name, ...rest] = args;
  try {
    if (name === undefined) throw new WrongUsage(phrase('Which command? See --help.'));
    if (name === '--help' || name === '-h' || name === 'help') {
      output.out(rest[0] === undefined ? generalHelp() : commandNamed(rest[0]).help);
      return 0;
    }
    const command = commandNamed(name);
    if (asksForHelp(rest)) {
      output.out(command.help);
      return 0;
    }
    return await command.run(rest, output);
  } catch (thrown) {
    if (thrown instanceof Refusal) {
      output.remark(thrown.message);
      return 1;
    }
    if (thrown instanceof WrongUsage) {
      output.remark(thrown.message);
      return 2;
    }
    // Whatever else it is, the fault is ours; a stack would tell the person nothing.
    output.remark(
      phrase('Underpaper itself failed: {isThrown, select, true {{message}} other {no reason given}}.', {
        isThrown: thrown instanceof Error,
        message: thrown instanceof Error ? oneLine(thrown.message, 200) : '',
      }),
    );
    return 1;
  }
}

/** After `--` everything is a file name. */
const asksForHelp = (args: readonly string[]): boolean => {
  const end = args.indexOf('--');
  return (end < 0 ? args : args.slice(0, end)).some((arg) => arg === '--help' || arg === '-h');
};

function commandNamed(name: string): Command {
  const command = COMMANDS.find((one) => one.name === name);
  if (command !== undefined) return command;
  throw new WrongUsage(
    name.startsWith('-')
      ? phrase('{name} comes without a command; see --help.', { name })
      : phrase('There is no command {name}: {listedNames}; see --help.', {
          name,
          listedNames: listedNames(),
        }),
  );
}

const listedNames = (): string => {
  const names = COMMANDS.map(({ name }) => name);
  return phrase('{names} or {names2}', { names: names.slice(0, -1).join(', '), names2: names.at(-1) });
};

function generalHelp(): string {
  const width = Math.max(...COMMANDS.map(({ name }) => name.length));
  return `Usage: npm run --silent underpaper -- <command> FILE [options]

Pieces the blocks of an Underpaper project file (*.underpaper.json) without a screen.

Commands
${COMMANDS.map(({ name, summary }) => `  ${name.padEnd(width)}    ${summary}`).join('\n')}

Options
  --help    print this help, or after a command all about it

Exit status
  0    done
  1    the file or the request is at fault; one line on the error output says how
  2    wrong usage
`;
}
