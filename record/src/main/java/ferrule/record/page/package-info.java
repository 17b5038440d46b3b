/** What the pages of a record say: a judgement put in words and rows, before any layout. */
@NullMarked
package ferrule.record.page;

import org.jspecify.annotations.NullMarked;
