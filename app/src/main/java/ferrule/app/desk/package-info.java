/**
 * The desk: a web page of a job's findings, served to this machine only. Reads what it is handed
 * and changes nothing; every page is made on the server and works without scripts.
 */
@NullMarked
package ferrule.app.desk;

import org.jspecify.annotations.NullMarked;
