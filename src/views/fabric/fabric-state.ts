import { createStore } from 'zustand/vanilla';
import { onOtherProject } from '../../workspace/session.ts';

/** What is looked at in the Fabric place. Lives while the window is open; no part of the project. */
export interface FabricView {
  /** Id of the fabric that is open; null for patches without one; undefined until one is chosen. */
  readonly fabric: string | null | undefined;
  /** Block and lasting id of the patch whose proof is open. */
  readonly proof: { readonly block: string; readonly key: string } | null;
}

export const fabricView = createStore<FabricView>(() => ({ fabric: undefined, proof: null }));

onOtherProject(() => fabricView.setState({ fabric: undefined, proof: null }));
