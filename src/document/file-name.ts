import { phrase } from '../words/phrase.ts';

/** How the names of project files end. */
export const FILE_ENDING = '.underpaper.json';

/**
 * A file name for a project: its name without what some systems forbid in file names (Windows' list is the
 * longest: control signs, `<>:"/\|?*`, dots and blanks at the end), `project` when nothing is left.
 */
export function fileNameFor(projectName: string, ending = FILE_ENDING): string {
  const stem = projectName
    .replace(/[<>:"/\\|?*\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim()
    .slice(0, 100)
    .replace(/^[. ]+|[. ]+$/g, '');
  return `${stem === '' ? phrase('[[file name]] project') : stem}${ending}`;
}
