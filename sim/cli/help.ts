// What the command line says of itself.

export const HELP = `Loopyard without a screen. Usage: npm run -s sim -- VERB ...

  run SCENARIO [--script FILE | --record FILE] [--phase NAME] [--until S] [--seed N]
               [--rules FILE] [--out SERIES [--every S]]
        Runs a scenario: with a hand script, with the commands of a record, or with idle
        hands; to its end or to S seconds. Prints readings, facts, the books and the marks.
        --seed says which form of a job with ranges is run; 1 is the job as it is written.
        --phase cuts the job down to its drill of one phase, by the phases.json beside it,
        and a script of the whole day to the steps behind that phase's marker.
        A mistake (NAME.mistake.json: a script beside it with one edit) is a script as well.
        --out writes a series as well, a look every second or every S: times_s;
        air_L_at_1atm in total, in the loop and in each link; flow_L_s and velocity_m_s of
        each link; pressure_kPa (gauge) of each node; level_mm and antifreeze_fraction of
        each tank; ledgers_kg; then the facts and the marks.
  play JOB [--player NAME] [--seeds A..B] [--phase NAME] [--record FILE] [--why]
           [--rules FILE]
        Somebody plays the job (a scenario, or the folder of a level) by rules, and sees panel
        and scene alone: the reference, or one who goes wrong in one way:
        skips_priming, too_slow, never_reverses, all_at_once, stops_early,
        shuts_return_too_long, leaves_as_purged, never_tests, neat_alcohol, forgets_filter,
        records_without_reading, spills_on_disconnect. Prints the marks of each seed from A to
        B (of seed 1 if none is named); with --why each decision and the key of its reason,
        whose words stand in levels/players.words.en.json. --record writes the record of one
        seed. Exit code 0 only if every seed passed.
  replay RECORD [--scenario FILE]
        Runs a record (or an attempt) again and compares every hash kept in it.
  record SCRIPT [--scenario FILE] [--seed N] [--out FILE]
        Plays a hand script and prints the timed record, or writes it to FILE.
  score RECORD [--scenario FILE] [--rules FILE]
        Replays a record (or an attempt) and marks what happened.
  sheet SCENARIO [--seed N] [--answers FILE] [--rules FILE]
        The job sheet: each line with its unit, what it should say and by which numbers. With
        answers, {"line": number in that unit, or null for "cannot tell"}, also their marks;
        exit code 0 only if all are right.
  steady SCENARIO [--seed N] [--set ID=VALUE ...]
        Flows and pressures that stand still, with liquid in every part and controls at
        their start but for those set: degrees of a valve (or open, shut) or of a three-way
        valve (or all_joined, from_shut, branch_shut, to_shut), on or off of a pump, made or
        apart of a coupling, blocked share of a filter, L/s of a fixed flow. Tanks keep their
        level. Prints flow_L_s, velocity_m_s and loss_kPa of each link (from -> to positive;
        rise_kPa of a pump, shut where nothing can pass), pressure_kPa (gauge; null where
        nothing ties a part to a boundary) and elevation_m of each node (of a tank: its
        surface), the steps it took and what is left unbalanced.
        The ends of a three-way valve are ID, ID.branch and ID.to; the open sides of a
        coupling ID.from and ID.to.
  law NAME --in ROWS
        A law of the engine on rows of named arguments: a JSON list [{...}] comes back with
        a result in each row.
  law --list
        Every law: its arguments with units and what is allowed, its results, its source.
  bench [--rounds N]
        How long a tick takes with 3 to 200 circuits, against a yardstick timed beside it.
  hash FILE
        The hash of a scenario, a record or an attempt.
  schema [scenario | rules | record | attempt | script | mistake]
        Prints a JSON Schema; of the scenario if nothing is named.

A scenario that is not named is looked for by its id: beside the file, then in
levels/*/scenario.json below the current folder. Rules: in the folder above the scenario's,
then in levels/rules.json.

Examples, behind npm run -s sim -- :
  run levels/01-heron-lane/scenario.json --until 60 --out series.json --every 5
  record levels/01-heron-lane/solution.script.json --out my.record.json
  play levels/01-heron-lane --player stops_early --seeds 1..5
  replay levels/01-heron-lane/solution.record.json
  score levels/01-heron-lane/solution.record.json
  steady levels/01-heron-lane/scenario.json --set fill_valve=open --set pump=on
  sheet levels/01-heron-lane/scenario.json
  law friction.frictionFactor --in rows.json     rows.json: [{"Re": 1e5, "e_D": 0.0001}]
  bench --rounds 3
  hash levels/01-heron-lane/scenario.json
  schema rules

Exit codes: 0 passed, or replayed to the same hashes, or answered; 1 did not pass, diverged,
no steady flow was found, or the script did not come to its end; 2 bad input:
{"faults": [{"path", "message", "file"}]}, nothing written; 70 a fault of the program itself.
`;
