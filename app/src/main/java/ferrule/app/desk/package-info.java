/**
 * The desk: a job's findings as web pages, served to this machine only. Opened on a job file it
 * takes in readings and zeros through forms, and hands them to the store; else it changes nothing.
 * Every page is made on the server and works without scripts.
 */
@NullMarked
package ferrule.app.desk;

import org.jspecify.annotations.NullMarked;
