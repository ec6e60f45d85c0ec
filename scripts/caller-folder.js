// npm runs a script in the project's folder; names of files are meant from where npm was called.

/** Stands in the folder from which npm was called, if npm runs the script of this name. */
export function standWhereCalled(script) {
  const { INIT_CWD, npm_lifecycle_event } = process.env;
  if (npm_lifecycle_event === script && INIT_CWD !== undefined) process.chdir(INIT_CWD);
}
