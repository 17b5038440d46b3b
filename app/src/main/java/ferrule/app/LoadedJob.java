package ferrule.app;

import ferrule.app.face.DrawnPictures;
import ferrule.core.Problem;
import ferrule.core.job.Job;
import java.util.List;

/**
 * A job read from its file or straight from a folder.
 *
 * @param name as the user gave it
 * @param job its contents
 * @param problems rows that could not be used
 * @param notes what a reader should know
 * @param fromFolder whether it was read from a folder, so that the problems are of this very input
 * @param pictures the pictures of end faces that the job's grades name
 */
public record LoadedJob(
    String name,
    Job job,
    List<Problem> problems,
    List<String> notes,
    boolean fromFolder,
    DrawnPictures.Source pictures) {}
