/**
 * Taking in: a job folder's tables, CSV or XLSX, become typed rows. Every row ends as an entry or
 * as a listed problem; units and times are converted here, once.
 */
@NullMarked
package ferrule.store.intake;

import org.jspecify.annotations.NullMarked;
