import { useStore } from 'zustand';
import { closeDialog, dialogs } from '../../workspace/dialogs.ts';
import { lazyDialog } from '../lazy-dialog.tsx';
import './shelf.css';

const BringInDialog = lazyDialog(() => import('./bring-in-dialog.tsx'));
const ElsewhereDialog = lazyDialog(() => import('./elsewhere-dialog.tsx'));
const FollowDialog = lazyDialog(() => import('../picturing/follow-dialog.tsx'));
const FromPictureDialog = lazyDialog(() => import('../picturing/from-picture-dialog.tsx'));
const MotifDialog = lazyDialog(() => import('./motif-dialog.tsx'));
const PictureDialog = lazyDialog(() => import('../block/picture-dialog.tsx'));
const RecolourDialog = lazyDialog(() => import('../block/recolour-dialog.tsx'));
const ShelfDialog = lazyDialog(() => import('./shelf-dialog.tsx'));
const UnderPictureDialog = lazyDialog(() => import('../block/under-picture-dialog.tsx'));

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
      return <FromPictureDialog file={asked.file} onClose={closeDialog} />;
    case 'follow-picture':
      return <FollowDialog blockId={asked.blockId} at={asked.at} onClose={closeDialog} />;
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
