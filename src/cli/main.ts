import { run } from './run.ts';

// A reader that stops early, such as `head`, is no trouble.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

process.exitCode = await run(process.argv.slice(2), {
  out: (content) => process.stdout.write(content),
  remark: (line) => process.stderr.write(`underpaper: ${line}\n`),
});
