import { useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { cutsOfFabric, cuttings, type FabricCuts, followCutting } from '../../workspace/cutting-client.ts';

/** Keeps what to cut up to date while the screen is open. */
export function useCutting() {
  useEffect(() => followCutting(), []);
  return useStore(cuttings);
}

/** All about one fabric; the last that was known of it stays until the next comes. Null while there is nothing. */
export function useFabricCuts(fabric: string | null | undefined): FabricCuts | null {
  const sum = useStore(cuttings, (state) => state.sum);
  const [cuts, setCuts] = useState<{ readonly of: string | null; readonly cuts: FabricCuts } | null>(null);
  useEffect(() => {
    if (sum === null || fabric === undefined) return;
    let isCurrent = true;
    cutsOfFabric(sum.number, fabric).then(
      (found) => {
        if (!isCurrent) return;
        if (found) setCuts({ of: fabric, cuts: found });
        else if (!sum.fabrics.some((one) => one.fabric === fabric)) setCuts(null);
      },
      // The client says so.
      () => undefined,
    );
    return () => {
      isCurrent = false;
    };
  }, [sum, fabric]);
  return cuts !== null && cuts.of === fabric ? cuts.cuts : null;
}
