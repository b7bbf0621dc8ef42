import { loadLanguage, preferredLanguage } from '../words/language.ts';
import { languageAsked } from './language.ts';

// A reader that stops early, such as `head`, is no trouble.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

// First the language: what is loaded after it may make its texts at once.
const { tags, rest } = languageAsked(process.argv.slice(2), process.env);
await loadLanguage(preferredLanguage(tags), tags);
const { run } = await import('./run.ts');

process.exitCode = await run(rest, {
  out: (content) => process.stdout.write(content),
  remark: (line) => process.stderr.write(`underpaper: ${line}\n`),
});
