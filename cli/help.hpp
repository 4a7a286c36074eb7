// What --help says, in words a caretaker can follow.
#pragma once

namespace lidlift::cli {

inline constexpr const char* main_help =
    R"(lidlift says what is probably wrong in a worm bed or composting tank, why, what
to do first, what could hurt someone, and when to look again.

Tell it what you smell, see or squeeze:

  lidlift why smell_rotten=strong squeeze=stream
  lidlift why worm_place=up_walls_lid days_since_worms="2 days"
  lidlift why "it reeks of rotten eggs and they are all up the walls"

See what it can be told, and every answer it takes:

  lidlift show signs
  lidlift show signs squeeze

Commands
  why       what is probably wrong, and what to do      lidlift why --help
  ask       the same by question and answer             lidlift ask --help
  handover  one sheet about a recorded call             lidlift handover --help
  log       what was done or seen, into a tank's record lidlift log --help
  round     every tank of a site, most urgent first     lidlift round --help
  mix       a mixture, and what to add to it            lidlift mix --help
  show      what stands in the rule base                lidlift show --help
  handbook  all of it, to read and correct on paper     lidlift handbook --help
  check     finds the faults in a rule base             lidlift check --help
  try       recorded cases: still answered well?        lidlift try --help
  compare   what a change of the rules changes          lidlift compare --help
  learn     what closed calls teach                     lidlift learn --help

With every command
  --rules PATH         read this rule file or folder after the default rules;
                       may be said again
  --only-rules PATH    read this one instead of them; may be said again
  --json               print JSON instead of text
  --help, --version

What you do not know is simply left out; it is never taken as "no".

The command ends with 0 when there is an answer, 1 when a check found faults or
cases came out wrong or worse than before, 2 when something that you gave it
cannot be used, and 3 when something could not be read or written.
)";

inline constexpr const char* why_help =
    R"(Says which causes are likely and why, what to do first, what could hurt
someone, and when to look again.

  lidlift why smell_rotten=strong squeeze=stream      two things you noticed
  lidlift why worm_place=up_walls_lid,outside_dried   several answers at once
  lidlift why worm_place="not up_walls_lid"           something you looked for
                                                      and did not find
  lidlift why bed_temperature="31 °C"                 a measurement, or 88 °F
  lidlift why bed_temperature="28 to 32 °C"           a range of it
  lidlift why smell_sour=strong,unsure                not sure; or ,guess
  lidlift why smell_ammonia=?                         asked, but not known
  lidlift why --told FILE                             answers from a file
  lidlift why "it stinks of ammonia since Friday"     in your own words
  lidlift why --tank tank_3.yaml smell_sour=strong    and what the tank's own
                                                      record says (see TANKS.md)
  lidlift why --tank tank_3.yaml                      the record alone
  lidlift why --cases calls.jsonl --short             as many beds as the file
                                                      has lines (see LINES.md)

Your own words are read with care: what is not clear is not used, and you are
told so; see whether what was understood is what you meant. Where nothing was
clear, you are asked what to look at first. What can be told stands in:
lidlift show signs

Options
  --told FILE          read answers from this YAML file; - is standard input;
                       may be said again
  --tank FILE          use what this tank's record tells of one of its bays;
                       what you say yourself counts for more
  --bay NAME           this bay of it; left out: the one with the worms, or,
                       where you say nothing else, the one most in trouble
  --on DAY             take the record as of this day (2026-03-09); left out:
                       today
  --full               print every cause with its whole balance, every step that
                       was left out, and every source
  --steady             weigh it 200 times with every strength changed a little,
                       and say how often the first cause stays first
  --cases FILE         one JSON object a line, each a bed of its own, and one a
                       line as answer, in order; - is standard input
  --short              with --cases: ids and chances alone
  --threads N          with --cases: on so many cores; left out: on all
  --json               print JSON instead of text
  --rules PATH         read this rule file or folder after the default rules
  --only-rules PATH    read this one instead of them
  --help

A file of answers looks like this:

  note: Tank 3, the morning after the rain
  signs:
    smell_rotten: strong
    worm_place: [up_walls_lid, outside_dried]
    squeeze: {is: stream, sure: unsure}
)";

inline constexpr const char* mix_help =
    R"(Says what a mixture comes to - mass, volume, moisture, C:N, nitrogen, density,
each with the range in which it may lie - and how much of what to add to it.

  lidlift mix 30 kg kitchen_waste 5 kg dry_leaves
  lidlift mix 30 kg kitchen_waste 3 buckets dry_leaves --bucket 10 L
  lidlift mix "30 kg kitchen waste" "2 sacks of 40 L sawdust"
  lidlift mix 30 kg kitchen_waste --reach "60 % moisture" --with dry_leaves
  lidlift mix 30 kg kitchen_waste --reach "60 % moisture" --reach "30 C:N"
              --with "dry_leaves up to 20 kg" --with cardboard --with water
  lidlift mix 40 kg dry_leaves 5 kg cow_dung --reach resting --with water

Each material comes after its amount: kg, g, t, lb, L, m3, gal_us, gal_imp, or
buckets, barrows and sacks whose size is stated. The materials stand in:
lidlift show materials

Options
  --reach TARGET       "60 % moisture", "55 to 60 % moisture", "25 C:N", resting
                       (what suits the hot resting stage) or worms (what suits
                       the worm stage); may be said again
  --with MATERIAL      what is at hand to reach it, "dry_leaves up to 20 kg" if
                       there is no more; may be said again, the least of all
                       together is taken; water is one of them
  --bucket SIZE        how much a bucket holds: 10 L
  --barrow SIZE        the same of a barrow
  --vessel "NAME SIZE" the same of anything else: "sack 40 L"
  --measured FIGURE    your own figure in place of ours, as in "kitchen_waste
                       moisture 82 %"; also nitrogen, C:N, density; may be said
                       again
  --json               print JSON instead of text
  --rules PATH         read this rule file or folder after the default rules
  --only-rules PATH    read this one instead of them
  --help
)";

inline constexpr const char* log_help =
    R"(Adds what was done, read or seen to a tank's record. Comments, order and spacing
that somebody wrote there stay as they are, and nothing that was written is ever
lost, whoever else writes at the same time and whatever happens meanwhile.

  lidlift log --tank t3.yaml --bay left added 3 buckets kitchen_waste
  lidlift log --tank t3.yaml added 3 buckets kitchen waste 20 kg dry leaves
  lidlift log --tank t3.yaml sprinkled 2 kg cow_dung 20 L water
  lidlift log --tank t3.yaml read bed_temperature="61 °C"
  lidlift log --tank t3.yaml saw smell_sour=faint fruit_flies=few,unsure
  lidlift log --tank t3.yaml did turn_heap_with_dry "put the lid back on"
  lidlift log --tank t3.yaml worms in 5 kg        # or worms out
  lidlift log --tank t3.yaml --bay left harvested 6 barrows emptied
  lidlift log --tank t3.yaml read drying vessel=4g wet=14g dry=6.3g
  lidlift log --tank t3.yaml --note "nobody was here"

Several may stand in one line: added 2 buckets kitchen_waste saw squeeze=stream.
Materials, signs and steps stand in lidlift show; rules/TANKS.md explains the
record. What is not known is said, with the nearest name, and nothing is written
then.

Options
  --tank FILE          the record
  --bay NAME           in which bay; needed for what goes in or out where there
                       are several
  --on 2026-03-09      on that day; left out: today
  --note TEXT          anything else
  --wait SECONDS       how long to wait while somebody else writes (10)
  --json               print JSON instead of text
  --rules PATH         read this rule file or folder after the default rules
  --only-rules PATH    read this one instead of them
  --help

For a tank that has no record yet

  lidlift log --tank t7.yaml --new --name "Tank 7" --bays left,right
      --inside "10 ft x 6 ft x 2.5 ft" --bucket "10 L" --barrow "80 L"

  --new                begin the record; an entry may go with it
  --name TEXT          the tank's name; left out: that of the file
  --inside SIZE        length, width and height; the bays share the width
  --bays NAMES         left out: one bay
  --wall open          or closed: can worms pass the dividing wall?
  --worms SPECIES
  --bucket, --barrow   how much yours hold
)";

inline constexpr const char* round_help =
    R"(Goes round a site: every tank whose record lies in a folder, the most urgent
first - dangers, what is probably wrong, what is overdue, due today and due this
week - and what the site can take in a day against what it is given.

  lidlift round quince_lane                    as things are today
  lidlift round quince_lane --on 2026-06-15    as they are on that day

Every .yaml file of the folder is the record of one tank (rules/TANKS.md).
Beside them a file site.yaml may tell what no tank's record can, any of these:

  site: Quince Lane
  households: 54
  waste a day: 42 kg
  note: The school kitchen counts as ten households.

A record with a mistake in it is shown as one that cannot be used, and the
others are shown all the same; the command then ends with 2, or with 3 where a
file could not be read at all. A round takes 500 tanks at most.

Options
  --on DAY             the day to go by, as 2026-06-15; left out: today
  --full               the reason and the source of everything that is due, the
                       figures of each bay, and the sum of the load
  --json               print JSON instead of text
  --rules PATH         read this rule file or folder after the default rules
  --only-rules PATH    read this one instead of them
  --help
)";

inline constexpr const char* ask_help =
    R"(Asks one question at a time, the one that tells most for its effort first,
and advises as soon as it is sure enough.

  lidlift ask                        begin a call; nothing is written down
  lidlift ask --record calls/        keep a record in a new file of this folder
  lidlift ask --record FILE          begin a record, or go on where it stopped
  lidlift ask --again --record FILE  the follow-up: did it help, what was it?

Begin in your own words. Answer each question by its number, in a word or in
your own words; "don't know" is a good answer too. You can also say why, so far,
list, change 3, back, again, stop (advise now), pause, and help.

Every answer is in the record before the next question appears, so that nothing
is lost when the line breaks. A record has no place for names or telephone
numbers, and none are needed. rules/CALLS.md describes it.

Input may come from a pipe; where it ends, the advice follows.

Options
  --record PATH        the file of the call, or a folder for a new one
  --again              take up a recorded call after its advice
  --tank FILE          begin with what this tank's record tells; what the caller
                       says counts for more
  --bay BAY            which bay of it; left out: the one that is probably meant
  --json               talk on standard error, and print the advice as JSON
  --rules PATH         read this rule file or folder after the default rules
  --only-rules PATH    read this one instead of them
  --help

The command ends with 0 when the call ended as it should, 2 when a record cannot
be used, and 3 when one could not be read or written (the advice is still
given). A sheet to hand over is made of a record by: lidlift handover FILE
)";

inline constexpr const char* handover_help =
    R"(Makes one sheet about a recorded call, for whoever goes there: cautions first,
what was said, what it probably is and why, the steps with boxes to tick, what
not to do, when to look again, and what is still worth finding out.

  lidlift handover calls/FILE                     text, a page or little more
  lidlift handover calls/FILE --html > sheet.html one sheet of A4 or US Letter
  lidlift handover - < FILE

What was said is taken from the record. The advice is given anew by the rules at
hand, and the sheet says where it differs from what was advised then. What does
not find room on one sheet is named there; cautions are never left out.

The HTML page holds everything, fetches nothing, and prints as well without
colour: open it in a browser and print it.

No names or telephone numbers belong on the sheet. It repeats the caller's own
words, so read those before you hand it on.

Options
  --html               a page to print, instead of text
  --full               leave nothing out, however many sheets it takes
  --tank FILE          the tank's record, where it is not at the place that the
                       call names any more
  --bay BAY            which bay of it; left out: the one that is probably meant
  --json               print JSON instead of text
  --rules PATH         read this rule file or folder after the default rules
  --only-rules PATH    read this one instead of them
  --help
)";

inline constexpr const char* learn_help =
    R"(Reads the records of calls whose outcome is known and says how often each
stated likelihood came true, and which words in the rules the calls speak
against. It proposes; nothing is changed, and a person decides.

  lidlift learn calls
  lidlift learn calls another_desk/calls --json

A call is closed by its follow-up (lidlift ask --again --record FILE). Calls
whose cause was only guessed are not counted. A word of the rules is questioned
only when 20 calls with that one cause speak of it; until then it says how many
are missing. Only answers from before the first advice count, since later ones
may be coloured by it.

Options
  --full               all that was left out, and why
  --json               print JSON instead of text
  --rules PATH         read this rule file or folder after the default rules
  --only-rules PATH    read this one instead of them
  --help

It ends with 2 when a record holds a mistake; the others are counted all the
same.
)";

inline constexpr const char* show_help =
    R"(Shows what stands in the rule base.

  lidlift show                     what there is
  lidlift show signs               all that can be told, with the questions
  lidlift show signs squeeze       one of them, with its answers
  lidlift show causes blocked_drain
  lidlift show material "dead leaves"   found by what people call it, too

There are signs, conclusions, rules, causes, steps, cautions, clashes,
materials, sources, and words (the words of the rules with the numbers they
stand for).

Options
  --json               print JSON instead of text
  --rules PATH         read this rule file or folder after the default rules
  --only-rules PATH    read this one instead of them
  --help
)";

inline constexpr const char* handbook_help =
    R"(Writes the whole rule base as a handbook: dangers, signs, causes with their
signs and weights, steps, clashes, materials, rules and sources, with links
between them and an index, to be read by somebody who knows the trade.

  lidlift handbook                             Markdown, on standard output
  lidlift handbook -o handbook.html            one HTML page, to read or print
  lidlift handbook --rules mine.yaml -o handbook.html
                                               with your own rules in it

Options
  --format FORMAT      markdown or html; left out: html for a FILE that ends in
                       .html, markdown otherwise
  -o, --output FILE    write into this file, whole or not at all
  --json               the same content as JSON
  --rules PATH         read this rule file or folder after the default rules
  --only-rules PATH    read this one instead of them
  --help
)";

inline constexpr const char* check_help =
    R"(Finds the faults in a rule base: conditions that can never be true, rules that
say the same or contradict each other, what nothing uses, numbers that fall
between two conditions, and much more. Each is told with its place, why it
matters, answers that show it, and how to mend it.

  lidlift check                      the default rules
  lidlift check my_site.yaml         the default rules with these after them
  lidlift check --only-rules FILE    these alone

The answers that show a fault can be tried at once: put them after
"lidlift why", with the same rules.

A fault makes the advice wrong or unsafe for somebody. A piece of advice is
something to think about; where it should stay as it is, the rule base can say
why, and it is not told again.

Options
  --full               list every finding, and the advice that the rule base
                       answers
  --strict             let unanswered advice count as a fault
  --format text        or json, or sarif (for editors and code review)
  --json               the same as --format json
  --rules PATH         read this rule file or folder after the default rules
  --only-rules PATH    read this one instead of them
  --help

The command ends with 0 when there is no fault, and with 1 when there is one.
)";

inline constexpr const char* try_help =
    R"(Tries recorded cases - what was said about a bed, and what the advice must be -
and says which of them come out differently.

  lidlift try                          the cases inside the program
  lidlift try my_cases.yaml            those of a file, of a folder, or of -
  lidlift try --rules my_rules.yaml    are the shipped cases still right with
                                       my own rules added?
  lidlift try --at-least-first 85 --at-least-three 97
                                       let some first places be wrong

A table tells how often the expected cause came first and among the first three.
Then every case that came out wrong, worst first: what was told, what was
expected, and the balance of both causes side by side, line by line. At the end:
what the cases leave untried.

It ends with 0 when every case came out as it should, otherwise with 1. A step
that must never be advised, or a caution that is not read out, is always wrong.

Options
  --at-least-first P   enough when the right cause comes first in P per cent of
                       the cases that expect one; wrong first places and missing
                       steps in single cases are then let pass
  --at-least-three P   the same for the first three places
  --coverage           name the causes and cautions that the cases leave untried
  --junit FILE         also write the results to FILE as JUnit XML
  --json               print JSON instead of text
  --rules PATH         read this rule file or folder after the default rules
  --only-rules PATH    read this one instead of them
  --help

A file of cases looks like this; rules/CASES.md explains every key:

  cases:
    wet_bottom_after_the_fair:
      story: The tank behind the school smells when the fork lifts the bottom.
      told: {smell_rotten: strong, smell_where: [bottom]}
      expect: airless_bottom
      must say: [K01]
      never advise: [lime, moisture up]
      written from: the trade
      sources: [common_practice]
)";

inline constexpr const char* compare_help =
    R"(Says what a change of the rules changes: the same cases under the old and the
new rule base, most important changes first.

  lidlift compare default my_rules/ my_cases.yaml
  lidlift compare default default+site.yaml       the site's own rules added
  lidlift compare old_rules/ new_rules/ cases/ more_cases.yaml

OLD and NEW are a rule file, a folder of them, or the word `default` for the
rules inside the program (a file called default is said as ./default). Several
that belong together are joined by +. Without cases, those inside the program
are taken.

For every case that changed: cautions lost, whether it still passes, another
first cause, another verdict, steps that came or went, and causes above 5 % that
changed places. What only one of the two can read of a case is said, and the
case is compared without it.

It ends with 0 when nothing got worse, and with 1 when a case that passed fails
now, or a caution was lost.

Options
  --json               print JSON instead of text
  --rules PATH         read this rule file or folder after both OLD and NEW
  --help
)";

}  // namespace lidlift::cli
