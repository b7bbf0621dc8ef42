/** The address this app is served from, which printed codes lead to. */
export const appAddress = (): string => location.href.replace(/#.*$/, '');
