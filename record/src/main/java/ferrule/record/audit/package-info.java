/**
 * What differs between a record and what follows from its entries: signature and hashes, and every
 * file against one made anew. Knows no store and makes nothing itself.
 */
@NullMarked
package ferrule.record.audit;

import org.jspecify.annotations.NullMarked;
