import { lazy, Suspense } from 'react';
import { useStore } from 'zustand';
import { closeDialog, dialogs } from '../../workspace/dialogs.ts';
import { PictureDialog } from '../block/picture-dialog.tsx';
import { RecolourDialog } from '../block/recolour-dialog.tsx';
import { UnderPictureDialog } from '../block/under-picture-dialog.tsx';
import './shelf.css';
import { BringInDialog } from './bring-in-dialog.tsx';
import { ElsewhereDialog } from './elsewhere-dialog.tsx';
import { MotifDialog } from './motif-dialog.tsx';
import { ShelfDialog } from './shelf-dialog.tsx';

const FromPictureDialog = lazy(() => import('../picturing/from-picture-dialog.tsx'));

/** The dialog that a command, a menu or a dropped file asked for. */
export function AskedDialog() {
  const asked = useStore(dialogs, (state) => state.asked);
  if (asked === null) return null;
  switch (asked.kind) {
    case 'shelf':
      return <ShelfDialog onClose={closeDialog} />;
    case 'bring-in':
      // Another file is another dialog, begun anew.
      return (
        <BringInDialog key={asked.text} fileName={asked.fileName} text={asked.text} onClose={closeDialog} />
      );
    case 'from-picture':
      return (
        <Suspense fallback={null}>
          <FromPictureDialog file={asked.file} onClose={closeDialog} />
        </Suspense>
      );
    case 'motifs':
      return <MotifDialog onClose={closeDialog} />;
    case 'elsewhere':
      return <ElsewhereDialog onClose={closeDialog} />;
    case 'fabric-picture':
      return <PictureDialog fabricId={asked.fabricId} file={asked.file} onClose={closeDialog} />;
    case 'under-picture':
      return (
        <UnderPictureDialog
          key={asked.picture?.data ?? asked.blockId}
          blockId={asked.blockId}
          picture={asked.picture}
          onClose={closeDialog}
        />
      );
    case 'recolour':
      return <RecolourDialog onClose={closeDialog} />;
  }
}
