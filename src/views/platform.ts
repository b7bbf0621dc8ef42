/** Whether keys are to be shown as a Mac shows them. */
export const isMac = (): boolean => /Mac|iPhone|iPad/.test(navigator.platform);
