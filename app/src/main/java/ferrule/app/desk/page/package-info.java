/**
 * What each page of the desk shows, as plain values. Templates lay them out; nothing here knows
 * HTTP or HTML.
 */
@NullMarked
package ferrule.app.desk.page;

import org.jspecify.annotations.NullMarked;
