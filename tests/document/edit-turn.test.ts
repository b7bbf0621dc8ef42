import { describe, expect, it } from 'vitest';
import { removeCuts, setCutsLocked } from '../../src/document/edit-cuts.ts';
import { MIRRORS, turnBlock, turnBy, turnCuts } from '../../src/document/edit-turn.ts';
import { openFile } from '../../src/document/file.ts';
import { toText } from '../../src/document/to-text.ts';
import { signedArea } from '../../src/geometry/ring.ts';
import { piece } from '../../src/piecing/piece.ts';
import { blockOf, harbour } from './projects.ts';

describe('turning a whole block', () => {
  it('comes back after four quarter turns, and after two mirrors', () => {
    for (const turn of [turnBy(90), turnBy(-90)]) {
      let project = harbour;
      for (let step = 0; step < 4; step++) project = turnBlock(project, 'b1', turn);
      expect(project).toEqual(harbour);
    }
    const once = turnBlock(harbour, 'b1', MIRRORS.upright);
    const { outline, ...rest } = blockOf(turnBlock(once, 'b1', MIRRORS.upright));
    const { outline: before, ...same } = blockOf(harbour);
    expect(rest).toEqual(same);
    // The outline may begin at another corner; it keeps its corners and its turn.
    expect(outline.map(String).toSorted()).toEqual(before.map(String).toSorted());
    expect(signedArea(outline)).toBe(signedArea(before));
  });

  it('keeps fabrics on their patches and the block where it was', () => {
    const count = (project: typeof harbour) =>
      piece(blockOf(project))
        .patches.map(({ fabric, polygon }) => `${fabric} ${signedArea(polygon)}`)
        .toSorted();
    for (const turn of [turnBy(90), MIRRORS.level, MIRRORS.falling]) {
      const after = turnBlock(harbour, 'b1', turn);
      expect(count(after)).toEqual(count(harbour));
      expect(Math.min(...blockOf(after).outline.map(([x]) => x))).toBe(
        Math.min(...blockOf(harbour).outline.map(([x]) => x)),
      );
    }
  });
});

describe('locked cuts', () => {
  const locked = setCutsLocked(harbour, 'b1', ['c1'], true);

  it('are not turned or taken away, and can be unlocked', () => {
    expect(turnCuts(locked, 'b1', ['c1'], turnBy(90), [0, 0])).toBe(locked);
    expect(removeCuts(locked, 'b1', ['c1'])).toBe(locked);
    expect(setCutsLocked(locked, 'b1', ['c1'], true)).toBe(locked);
    expect(setCutsLocked(locked, 'b1', ['c1'], false)).toEqual(harbour);
  });

  it('are kept in the file, one canonical form', () => {
    const text = toText(locked);
    expect(text).toContain('"locked": true');
    expect(openFile(text)).toEqual({ ok: true, project: locked });
    expect(toText(harbour)).not.toContain('locked');
    expect(openFile(text.replace('"locked": true', '"locked": false'))).toEqual({
      ok: true,
      project: harbour,
    });
    const wrong = openFile(text.replace('"locked": true', '"locked": "yes"'));
    expect(wrong).toMatchObject({
      ok: false,
      error: { message: expect.stringContaining('the lock is neither') },
    });
  });
});
