/** The job on disk: taking in tables, the job file, its history. */
@NullMarked
package ferrule.store;

import org.jspecify.annotations.NullMarked;
