/**
 * Which side a paper shows. `printed`: mirrored, for stitching from the printed side with fabric on the blank
 * one. `front`: as the finished block is seen, for methods that sew from the other side.
 */
export type Side = 'printed' | 'front';
