// What an exit code of the command line means; the same for every command.

export const DONE = 0
/** The work was done and the answer is no: nothing reaches the target, or the setup is refused. */
export const NO_ANSWER = 1
/** Nothing was worked out, because of what was put in. */
export const BAD_INPUT = 2
