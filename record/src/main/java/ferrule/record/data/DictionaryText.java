package ferrule.record.data;

/** The lines of the {@link Dictionary}: name, type, unit, meaning. */
final class DictionaryText {

  private DictionaryText() {}

  static final String FIBRES =
      """
      fibre | text | | fibre, LINK/N
      standing | text | | proved, failed, doubtful or open
      reasons | text | | why it stands there, a semicolon between reasons
      readings | whole number | | readings that count
      least_margin_db | number | dB | least margin of those; empty without one
      doubts | text | | kinds of doubt that reach it, a blank between them
      link | text | | link of the schedule
      number | whole number | | number of the fibre in its link, from 1
      fibre_category | text | | category of the fibre: OM1 to OM5, OS1, OS1a, OS2
      length_m | number | m | length by the schedule
      a_place | text | | place of end A
      a_port | text | | port of end A
      a_connector | text | | connector of end A
      b_place | text | | place of end B
      b_port | text | | port of end B
      b_connector | text | | connector of end B
      """;

  /** Of a reading, in the table and in the JSON. */
  static final String READING =
      """
      direction | text | | A-B or B-A: where the source stood first
      wavelength_nm | whole number | nm | nominal wavelength
      loss_db | number | dB | loss as handed in, or power of the zero less power read; empty if neither can be had
      limit_db | number | dB | most loss permitted; empty if the rulebook lacks a figure or the fibre is not scheduled
      expected_db | number | dB | what good work usually loses
      expected_sd_db | number | dB | standard deviation of that
      uncertainty_db | number | dB | expanded uncertainty of the loss, k = 2
      margin_db | number | dB | limit less loss
      p_conforming | number | | probability that the loss is within the limit
      decision | text | | accept, reject or undecided, by the decision rule of the job
      reference | text | | zero under which it was taken
      measured_at | time | | when it was taken, UTC
      operator | text | | who took it
      power_dbm | number | dBm | power read, if handed in
      length_m | number | m | length measured, if handed in
      current | yes or no | | whether it counts: no later reading of the same fibre, direction and wavelength
      """;

  static final String READING_ROW =
      """
      in_doubt | yes or no | | whether a blocking doubt holds it back; empty if the fibre is not scheduled
      scheduled | yes or no | | whether the fibre is in the schedule
      """;

  static final String IN_DOUBT =
      """
      in_doubt | yes or no | | whether a blocking doubt holds it back
      """;

  static final String LIMIT_TERM =
      """
      limit_terms | list | | the terms whose sum is the limit
      limit_terms[].count | number | km or 1 | how many of the part
      limit_terms[].part | whole number | | number of the part in limit_parts
      """;

  static final String NO_LIMIT_TERMS =
      """
      limit_terms | list | | empty: nothing is known of the fibre
      """;

  static final String APPLICATIONS =
      """
      link | text | | link of the schedule
      application | text | | application that the job wants
      answer | text | | whether the link carries it
      decided_by | text | | what decides, or why it cannot be told
      room | number | see unit | what is left to the limit; negative if it is broken
      unit | text | | unit of room
      limit | number | see unit | the limit that decides
      limit_source | text | | where the limit comes from
      limit_confidence | text | | how well it is known: two-sources, one-source, memory, owner
      loss_origin | text | | what the losses are: measured, expected
      least_loss_db | number | dB | least loss of the link's fibres
      most_loss_db | number | dB | most loss of the link's fibres
      loss_at_nm | text | nm | wavelengths at which they were taken
      """;

  static final String CHANGES =
      """
      fibre | text | | fibre, LINK/N
      was | text | | where it stood in the issue before; empty if it was not scheduled
      now | text | | where it stands; empty if it is no longer scheduled
      new_readings | whole number | | readings of it that came in since
      what | text | | what is otherwise, semicolons between
      """;

  static final String DICTIONARY =
      """
      file | text | | file of the record
      name | text | | column, or path of the key: outer.inner, list[].inner; a star stands for names that depend on the case
      type | text | | text, number, whole number, yes or no, time, list, object
      unit | text | | unit of numbers
      meaning | text | | what it says
      """;

  static final String ABOUT =
      """
      record_format | whole number | | format of the record
      title | text | | title of the job
      issued_at | time | | time of issue, UTC, as the machine that issued it had it
      ferrule_version | text | | version of Ferrule that wrote it
      decision | text | | decision rule of the job: simple or guarded
      made_from | text | | job file, or job folder: a folder has no history, its entries were made with the record
      entries | whole number | | number of entries
      head | text | | hash of the last entry: it stands for all of them
      signed_by | text | | fingerprint of the key that signed it; none if it is not signed
      issue | whole number | | number of the issue, from 1
      since_issued_at | time | | time of the issue before, UTC; none if this is the first
      since_entries | whole number | | how many entries that one had: the first of these
      since_head | text | | hash of the last of them
      """;

  static final String GRADES =
      """
      picture | text | | file of the picture, as it was named
      subject | text | | port or cord end: port:PORT/FIBRE, cord:CORD/END
      stage | text | | found or cleaned
      taken_at | time | | when it was taken, UTC; none if not known
      operator | text | | who took it
      sha256 | text | | hash of the picture's bytes
      file | text | | file in this record; none if it could not be had
      criteria | text | | criteria it was graded by
      class | text | | class of the face: sm-pc, sm-apc, sm-pc26, mm
      outcome | text | | conforms, rejected or unreadable
      close | yes or no | | whether a size lies so near its limit that the outcome could be another
      reasons | list | | texts: why
      fibres | list | | of a row of fibres, each one
      fibres[].fibre | whole number | | number of the fibre in the row
      fibres[].outcome | text | | conforms, rejected or unreadable
      fibres[].close | yes or no | | as above
      fibres[].reason | text | | the weightiest reason
      """;

  static final String ENTRIES =
      """
      seq | whole number | | 1, 2, 3 without a gap
      id | text | | UUID, version 7
      kind | text | | job, link, instrument, cord, reference, reading, face, grade, part, polarity, withdrawal, intake, join
      name | text | | what may stand once in its kind; empty if many may
      content | text | | a JSON object, as text so that its hash can be made; its keys by kind are below
      intake | text | | id of the intake that brought it
      file | text | | file that it came from
      row | whole number | | row in that file; 0 if none
      entered_at | time | | when it was entered, UTC
      supersedes | whole number | | seq of the entry it corrects; 0 if none
      why | text | | why it corrects it
      prev | text | | hash of the entry before; zeros for the first
      hash | text | | SHA-256 of all of these, as docs/job-file.md of Ferrule says
      content.job.toml | text | | text of job.toml
      content.job.rulebook_file | text | | name under which it gives the rulebook
      content.job.rulebook_text | text | | text of the rulebook
      content.link.link | text | | link
      content.link.fibre_category | text | | category of its fibre
      content.link.fibres | whole number | | number of fibres
      content.link.length_m | number | m | length
      content.link.a_place | text | | place of end A
      content.link.a_port | text | | port of end A
      content.link.a_connector | text | | connector of end A
      content.link.b_place | text | | place of end B
      content.link.b_port | text | | port of end B
      content.link.b_connector | text | | connector of end B
      content.link.connections | whole number | | mated pairs between the ends, ends not counted
      content.link.splices | whole number | | splices
      content.link.devices | text | | splitters and the like, semicolons between them
      content.link.fed_by | text | | link that feeds this one
      content.instrument.instrument | text | | instrument
      content.instrument.kind | text | | source, meter or both
      content.instrument.wavelengths_nm | text | nm | wavelengths it works at
      content.instrument.calibrated_on | time | | day of calibration
      content.instrument.calibration_due | time | | day on which the next is due
      content.cord.cord | text | | test cord
      content.cord.fibre_category | text | | category of its fibre
      content.cord.length_m | number | m | length
      content.cord.end1_connector | text | | connector of end 1
      content.cord.end1_grade | text | | reference or standard
      content.cord.end2_connector | text | | connector of end 2
      content.cord.end2_grade | text | | reference or standard
      content.cord.matings | whole number | | matings it had when it was written down
      content.cord.in_service_since | time | | day
      content.reference.reference | text | | zero
      content.reference.set_at | time | | when it was set, UTC
      content.reference.method | text | | one-cord, two-cord or three-cord
      content.reference.direction | text | | A-B or B-A
      content.reference.wavelength_nm | whole number | nm | nominal wavelength
      content.reference.source | text | | source
      content.reference.meter | text | | meter
      content.reference.launch_cord | text | | launch cord
      content.reference.receive_cord | text | | receive cord
      content.reference.substitution_cord | text | | cord that stood in the link's place
      content.reference.fibre_category | text | | category of the cords' fibre
      content.reference.power_dbm | number | dBm | power that the zero stored
      content.reference.verification_db | number | dB | launch mated to receive, after the zero
      content.reference.operator | text | | who set it
      content.reading.link | text | | link
      content.reading.fibre | whole number | | number of the fibre in its link
      content.reading.direction | text | | A-B or B-A
      content.reading.wavelength_nm | whole number | nm | nominal wavelength
      content.reading.power_dbm | number | dBm | power read
      content.reading.loss_db | number | dB | loss
      content.reading.length_m | number | m | length measured
      content.reading.reference | text | | zero under which it was taken
      content.reading.measured_at | time | | when, UTC
      content.reading.operator | text | | who took it
      content.face.picture | text | | file of the picture
      content.face.subject | text | | port or cord end
      content.face.stage | text | | found or cleaned
      content.face.class | text | | class of the face
      content.face.taken_at | time | | when it was taken, UTC
      content.face.operator | text | | who took it
      content.grade.picture | text | | file of the picture
      content.grade.subject | text | | port or cord end
      content.grade.stage | text | | found or cleaned
      content.grade.class | text | | class as listed
      content.grade.taken_at | time | | when it was taken, UTC
      content.grade.operator | text | | who took it
      content.grade.sha256 | text | | hash of the picture's bytes
      content.grade.criteria | text | | criteria
      content.grade.graded_class | text | | class it was graded as
      content.grade.outcome | text | | conforms, rejected or unreadable
      content.grade.close | text | | yes if the outcome could be another; else left out
      content.grade.reasons | text | | why, line feeds between reasons
      content.grade.fibres | text | | of a row each fibre, a line each
      content.part.link | text | | link
      content.part.order | whole number | | place in the link, from end A
      content.part.part | text | | part
      content.part.kind | text | | trunk, cassette, fan-out or cord
      content.part.positions | whole number | | fibre positions
      content.part.map | text | | where each position arrives
      content.part.array_at | text | | end at which a cassette or fan-out has its array
      content.part.a_pins | text | | pins at end A
      content.part.a_key | text | | key at end A
      content.part.a_polish | text | | polish at end A
      content.part.b_pins | text | | pins at end B
      content.part.b_key | text | | key at end B
      content.part.b_polish | text | | polish at end B
      content.polarity.link | text | | link
      content.polarity.position | whole number | | position at end A
      content.polarity.arrives_at | whole number | | position at which light came out; 0 if none did
      content.polarity.after | whole number | | part behind which it was measured; 0 for the whole link
      content.withdrawal.link | text | | link of the reading that was withdrawn
      content.withdrawal.fibre | whole number | | number of the fibre in its link
      content.withdrawal.direction | text | | A-B or B-A
      content.withdrawal.wavelength_nm | whole number | nm | nominal wavelength
      content.intake.file | text | | file that was taken in
      content.intake.sha256 | text | | hash of the whole file
      content.intake.by | text | | who handed it in, if they gave their name
      content.intake.rows | whole number | | rows in it
      content.intake.entered | whole number | | rows entered
      content.intake.superseding | whole number | | of those, corrections
      content.intake.repeated | whole number | | rows that the job held already
      content.intake.unknown_columns | list | | texts: columns kept nowhere
      content.intake.problems | list | | rows that could not be used
      content.intake.problems[].row | whole number | | row
      content.intake.problems[].column | text | | column
      content.intake.problems[].expected | text | | what would have been accepted
      content.intake.problems[].found | text | | what was there
      content.intake.problems[].action | text | | what to do
      content.join.of | list | | the job files that were joined, by rising head
      content.join.of[].head | text | | hash of the last entry of one
      content.join.of[].entries | whole number | | number of its entries
      content.join.conflicts | list | | what they say differently and nobody has settled
      content.join.conflicts[].kind | text | | kind of entry
      content.join.conflicts[].name | text | | what it is about
      content.join.conflicts[].columns | text | | columns that differ
      content.join.conflicts[].one | text | | what the one says
      content.join.conflicts[].other | text | | what the other says
      content.join.conflicts[].one_file | text | | file that the one came from
      content.join.conflicts[].one_row | whole number | | row in it
      content.join.conflicts[].one_entered_at | time | | when it was entered, UTC
      content.join.conflicts[].other_file | text | | file that the other came from
      content.join.conflicts[].other_row | whole number | | row in it
      content.join.conflicts[].other_entered_at | time | | when it was entered, UTC
      content.join.problems | list | | rows that could not be used in either
      content.join.problems[].file | text | | file
      content.join.problems[].row | whole number | | row
      content.join.problems[].column | text | | column
      content.join.problems[].expected | text | | what would have been accepted
      content.join.problems[].found | text | | what was there
      content.join.problems[].action | text | | what to do
      """;

  static final String JUDGEMENT =
      """
      job | object | | what must be met
      job.title | text | | title of the job
      job.rulebook | text | | id of the rulebook
      job.edition | text | | its edition
      job.method | text | | one-cord, two-cord or three-cord
      job.decision | text | | decision rule: simple or guarded
      job.owner | text | | owner
      job.contractor | text | | contractor
      job.rulebook_title | text | | title of the rulebook
      job.wavelengths_nm | list | nm | whole numbers: wavelengths required
      job.directions | text | | one or both
      job.applications | list | | texts: applications wanted
      job.faces | text | | none or ends: whether every link end must be graded
      totals | object | | fibres by standing
      totals.fibres | whole number | | fibres scheduled
      totals.proved | whole number | | fibres proved
      totals.failed | whole number | | fibres failed
      totals.doubtful | whole number | | fibres doubtful
      totals.open | whole number | | fibres open
      fibres | list | | every fibre of the schedule
      fibres[].fibre | text | | fibre, LINK/N
      fibres[].standing | text | | proved, failed, doubtful or open
      fibres[].reasons | list | | texts: why
      fibres[].readings | list | | readings that count
      fibres[].replaced | list | | readings replaced by later ones
      fibres[].fibre_category | text | | category of the fibre
      fibres[].length_m | number | m | length by the schedule
      fibres[].a_place | text | | place of end A
      fibres[].a_port | text | | port of end A
      fibres[].b_place | text | | place of end B
      fibres[].b_port | text | | port of end B
      unscheduled | list | | readings of fibres that are not in the schedule
      references | list | | every zero
      references[].reference | text | | zero
      references[].trust | text | | fresh, verified, ageing, doubtful or broken
      references[].reasons | list | | texts: why
      references[].shifts | list | | estimated shift of each level that has readings
      references[].shifts[].direction | text | | A-B or B-A
      references[].shifts[].wavelength_nm | whole number | nm | nominal wavelength
      references[].shifts[].shift_db | number | dB | estimated shift
      references[].shifts[].shift_sd_db | number | dB | its standard deviation
      references[].shifts[].confounded_with | list | | texts: what it cannot be told from
      references[].separate | list | | readings that would tell it from that, the best first
      references[].separate[].fibre | text | | fibre to read
      references[].separate[].cords | list | | texts: or cords to read mated
      references[].separate[].direction | text | | A-B or B-A
      references[].separate[].wavelength_nm | whole number | nm | nominal wavelength
      references[].separate[].reference | text | | zero to read it under
      references[].separate[].expect_db | object | dB | the loss to be expected for each cause, by its name
      references[].separate[].expect_db.* | number | dB | the loss to be expected if it is this cause
      references[].separate[].threshold_db | number | dB | the loss that divides them
      references[].separate[].expect_sd_db | number | dB | standard deviation of what is expected
      references[].separate[].minutes | number | min | time it takes
      references[].method | text | | one-cord, two-cord or three-cord
      references[].readings | whole number | | readings taken under it
      references[].levels | list | | each direction and wavelength
      references[].levels[].direction | text | | A-B or B-A
      references[].levels[].wavelength_nm | whole number | nm | nominal wavelength
      references[].levels[].set_at | time | | when it was set, UTC
      references[].levels[].power_dbm | number | dBm | power that the zero stored
      references[].levels[].verification_db | number | dB | launch mated to receive, after the zero
      references[].levels[].source | text | | source
      references[].levels[].meter | text | | meter
      references[].levels[].launch_cord | text | | launch cord
      references[].levels[].receive_cord | text | | receive cord
      references[].levels[].substitution_cord | text | | cord that stood in the link's place
      references[].levels[].fibre_category | text | | category of the cords' fibre
      references[].levels[].operator | text | | who set it
      references[].spans | list | | its trust over time
      references[].spans[].from | time | | begin, UTC
      references[].spans[].to | time | | end, UTC
      references[].spans[].trust | text | | fresh, verified, ageing, doubtful or broken
      references[].spans[].reason | text | | why
      cords | list | | every test cord of which a shift can be estimated
      cords[].cord | text | | test cord
      cords[].roles | list | | texts: where it stood
      cords[].references | list | | texts: zeros in which it stood
      cords[].shift_db | number | dB | what those zeros have in common
      cords[].shift_sd_db | number | dB | its standard deviation
      cords[].confounded_with | list | | texts: what it cannot be told from
      cords[].matings_in_job | whole number | | matings that the job's readings gave it
      verify_every | object | | after how many links to verify the zero in use
      verify_every.links | number | | links
      verify_every.low | number | | lower end of the 90 % range
      verify_every.high | number | | upper end
      verify_every.events | whole number | | zeros found changed
      verify_every.links_tested | whole number | | links tested meanwhile
      doubts | list | | every reason not to believe readings
      doubts[].kind | text | | kind of doubt
      doubts[].subject | text | | what it is about: fibre, link, zero, cord, instrument, place, or job
      doubts[].blocking | yes or no | | whether it holds readings back
      doubts[].reach | list | | texts: fibres it covers
      doubts[].evidence | object | | what speaks for it; names end in their unit
      doubts[].evidence.* | number or text | in the name | one piece of evidence
      doubts[].causes | list | | possible causes, the likeliest first
      doubts[].causes[].cause | text | | cause
      doubts[].causes[].weight | number | | its weight, all together 1
      doubts[].next | text | | what to do next
      doubts[].minutes | number | min | time it takes
      doubts[].where | text | | where
      doubts[].subject_type | text | | what kind of thing the subject is
      doubts[].says | text | | the doubt in a sentence
      doubts[].reach_readings | list | | the very readings it covers
      doubts[].reach_readings[].fibre | text | | fibre
      doubts[].reach_readings[].direction | text | | A-B or B-A
      doubts[].reach_readings[].wavelength_nm | whole number | nm | nominal wavelength
      doubts[].reach_readings[].measured_at | time | | when it was taken, UTC
      doubts[].confirms | text | | what would confirm it
      doubts[].refutes | text | | what would refute it
      doubts[].separate | list | | as references[].separate, where it cannot be told from something else
      doubts[].separate[].fibre | text | | fibre to read
      doubts[].separate[].cords | list | | texts: or cords to read mated
      doubts[].separate[].direction | text | | A-B or B-A
      doubts[].separate[].wavelength_nm | whole number | nm | nominal wavelength
      doubts[].separate[].reference | text | | zero to read it under
      doubts[].separate[].expect_db | object | dB | the loss to be expected for each cause, by its name
      doubts[].separate[].expect_db.* | number | dB | the loss to be expected if it is this cause
      doubts[].separate[].threshold_db | number | dB | the loss that divides them
      doubts[].separate[].expect_sd_db | number | dB | standard deviation of what is expected
      doubts[].separate[].minutes | number | min | time it takes
      alarm | object | | how often a perfect job of this size would show a false doubt
      alarm.looks | whole number | | number of looks
      alarm.false_alarm_chance | number | | chance of one of any kind
      alarm.blocking_false_alarm_chance | number | | chance of one that holds readings back
      alarm.shares | list | | by kinds of doubt
      alarm.shares[].kinds | list | | texts: kinds of doubt
      alarm.shares[].blocking | yes or no | | whether they hold readings back
      alarm.shares[].looks | whole number | | looks
      alarm.shares[].false_alarm_chance | number | | chance
      would_show | list | | the smallest trouble that the readings would show
      would_show[].kind | text | | kind of doubt that would say so
      would_show[].subject | text | | zero, place or job
      would_show[].size_db | number | dB | size
      would_show[].chance | number | | chance with which it would show
      proposals | list | | where fibres would stand without an estimated shift; replaces nothing
      proposals[].reference | text | | zero
      proposals[].shift_db | number | dB | shift taken away
      proposals[].shift_sd_db | number | dB | its standard deviation
      proposals[].would_be | object | | fibres by standing
      proposals[].would_be.proved | whole number | | fibres proved
      proposals[].would_be.failed | whole number | | fibres failed
      proposals[].would_be.doubtful | whole number | | fibres doubtful
      proposals[].would_be.open | whole number | | fibres open
      proposals[].fibres | list | | each fibre under that zero
      proposals[].fibres[].fibre | text | | fibre
      proposals[].fibres[].standing | text | | proved, failed, doubtful or open
      actions | list | | what to do next, in order
      actions[].rank | whole number | | place in the order, from 1
      actions[].do | text | | what to do
      actions[].where | text | | where
      actions[].minutes | number | min | time it takes
      actions[].frees | list | | texts: fibres that it would free
      actions[].helps | whole number | | fibres that it would help to free
      actions[].confirms | text | | what would confirm the doubt behind it
      actions[].refutes | text | | what would refute it
      actions[].stop | whole number | | stop of the walk
      walk | list | | the actions place by place
      walk[].stop | whole number | | number of the stop
      walk[].place | text | | place
      walk[].minutes | number | min | time, setting up included
      walk[].actions | list | | whole numbers: ranks of the actions
      walk[].frees | whole number | | fibres freed there
      walk[].set_up_minutes | number | min | time to set up
      walk[].minutes_by_then | number | min | time since the start
      walk[].freed_by_then | whole number | | fibres freed since the start
      arrays | list | | links of array connectors
      arrays[].link | text | | link
      arrays[].parts | list | | its parts, from end A
      arrays[].parts[].order | whole number | | place
      arrays[].parts[].part | text | | part
      arrays[].parts[].kind | text | | trunk, cassette, fan-out or cord
      arrays[].parts[].map | text | | where positions arrive
      arrays[].method | text | | polarity method that the parts make up, if one
      arrays[].map | list | | whole numbers: where each position arrives; none if it cannot be said
      arrays[].map_unknown | text | | why it cannot be said
      arrays[].transmit_receive | text | | whether transmit meets receive
      arrays[].transmit_receive_why | text | | why
      arrays[].positions_read | whole number | | positions measured
      arrays[].measured | list | | whole numbers: where each position was measured to arrive; none if not all were
      arrays[].astray | list | | whole numbers: positions that arrived elsewhere
      arrays[].would_explain | list | | texts: parts that would explain it
      problems | list | | what was wrong with the input
      problems[].file | text | | file
      problems[].row | whole number | | row; 0 if no single one
      problems[].column | text | | column or key
      problems[].expected | text | | what would have been accepted
      problems[].found | text | | what was there
      problems[].action | text | | what to do
      notes | list | | texts: what else a reader of the input must know
      limit_parts | list | | the parts that limits are made of
      limit_parts[].part | whole number | | number of the part
      limit_parts[].what | text | | what it is
      limit_parts[].unit | text | | what is counted: km, connection, splice, device
      limit_parts[].each_db | number | dB | loss permitted of one
      limit_parts[].standard | text | | standard it comes from
      limit_parts[].edition | text | | edition
      limit_parts[].clause | text | | clause
      limit_parts[].confidence | text | | two-sources, one-source, memory or owner
      limit_parts[].confidence_shown | text | | the same in words
      limit_parts[].seen_in | text | | where it was seen
      """;
}
