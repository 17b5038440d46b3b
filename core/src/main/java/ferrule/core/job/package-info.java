/**
 * One job as it stands: what is required, what was to be built, how the zeros were set and what was
 * read. The input of {@link ferrule.core.trust}.
 */
@NullMarked
package ferrule.core.job;

import org.jspecify.annotations.NullMarked;
