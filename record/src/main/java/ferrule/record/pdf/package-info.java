/**
 * The record as PDF: prose pages laid out from XHTML, results drawn straight onto pages since there
 * may be tens of thousands of them, then numbered, marked up and dated as one document.
 */
@NullMarked
package ferrule.record.pdf;

import org.jspecify.annotations.NullMarked;
