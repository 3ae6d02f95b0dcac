/**
 * The command line: the only place that builds objects, owns the real clock, writes logs and talks to a person. Output
 * goes to standard output, errors and progress to standard error; exit codes are 0 done, 1 not safe or not passed, 2
 * usage, 3 bad input, 4 could not run.
 */
@NullMarked
package coldward.app;

import org.jspecify.annotations.NullMarked;
