/** Benchmarks. Each compares with a baseline named beside it, measured in the same run. */
@NullMarked
package ferrule.bench;

import org.jspecify.annotations.NullMarked;
