/** The file or the request is at fault: exit status 1. The message is one plain sentence on one line. */
export class Refusal extends Error {}

/** The command line itself is wrong: exit status 2. */
export class WrongUsage extends Error {}
