package ferrule.app.demo;

import ferrule.core.plant.Cord;
import ferrule.core.plant.Instrument;
import ferrule.core.plant.Link;
import ferrule.core.zero.Reading;
import ferrule.core.zero.Zero;
import java.util.List;
import java.util.Map;

/**
 * The invented job: its rows, and what was planted.
 *
 * @param toml text of job.toml
 * @param planted which trouble of single fibres was planted where: fibre or link by name of the
 *     trouble
 */
record DemoJob(
    String toml,
    List<Link> links,
    List<Instrument> instruments,
    List<Cord> cords,
    List<Zero> zeros,
    List<Reading> readings,
    Map<String, List<String>> planted) {}
