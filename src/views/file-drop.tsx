import { useEffect, useState } from 'react';
import { phrase } from '../words/phrase.ts';
import { bringIn, isSvgFile } from '../workspace/bring-in.ts';
import { openProjectFile } from '../workspace/files.ts';
import { isPictureFile, takePicture } from '../workspace/under-picture.ts';

const holdsFile = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;

/** Opens a file that is dropped anywhere on the window, and says so while it hovers. */
export function FileDrop() {
  const [isOver, setOver] = useState(false);
  useEffect(() => {
    // Moving between elements leaves one and enters the next: only when all are left has the file gone.
    let depth = 0;
    const enter = (event: DragEvent): void => {
      if (!holdsFile(event)) return;
      event.preventDefault();
      depth++;
      setOver(true);
    };
    const over = (event: DragEvent): void => {
      if (holdsFile(event)) event.preventDefault();
    };
    const leave = (event: DragEvent): void => {
      if (!holdsFile(event)) return;
      depth = Math.max(0, depth - 1);
      if (depth === 0) setOver(false);
    };
    const drop = (event: DragEvent): void => {
      depth = 0;
      setOver(false);
      // A picture dropped on a fabric has been taken there.
      if (event.defaultPrevented) return;
      const file = event.dataTransfer?.files[0];
      if (file === undefined) return;
      event.preventDefault();
      if (isSvgFile(file)) void bringIn(file);
      else if (isPictureFile(file)) void takePicture(file);
      else void openProjectFile(file);
    };
    window.addEventListener('dragenter', enter);
    window.addEventListener('dragover', over);
    window.addEventListener('dragleave', leave);
    window.addEventListener('drop', drop);
    return () => {
      window.removeEventListener('dragenter', enter);
      window.removeEventListener('dragover', over);
      window.removeEventListener('dragleave', leave);
      window.removeEventListener('drop', drop);
    };
  }, []);
  return isOver ? (
    <div className="drop-here" aria-hidden="true">
      <p>{phrase('Drop to open the file')}</p>
    </div>
  ) : null;
}
