/**
 * The language asked for by `--language de` (or `--language=de`), else by the environment as POSIX has it (LC_ALL
 * before LC_MESSAGES before LANG); and the command line without that option. After `--` everything is a file name.
 */
export function languageAsked(
  args: readonly string[],
  env: Readonly<Record<string, string | undefined>>,
): { readonly tags: readonly string[]; readonly rest: readonly string[] } {
  const end = args.indexOf('--');
  const options = end < 0 ? args : args.slice(0, end);
  const at = options.findIndex((arg) => arg === '--language' || arg.startsWith('--language='));
  if (at < 0) {
    const tag = [env.LC_ALL, env.LC_MESSAGES, env.LANG].find((value) => value !== undefined && value !== '');
    return { tags: tag === undefined ? [] : [tag], rest: args };
  }
  const isApart = options[at] === '--language';
  const tag = isApart ? (options[at + 1] ?? '') : options[at]!.slice('--language='.length);
  return { tags: [tag], rest: args.toSpliced(at, isApart ? 2 : 1) };
}
