#include "engine/review/kinds.hpp"

#include <algorithm>
#include <array>

namespace lidlift {
namespace {

constexpr auto fault = FindingLevel::fault;
constexpr auto advice = FindingLevel::advice;

constexpr std::array kinds = {
    // Logic: what follows from the conditions alone.
    ReviewKind{"cannot_be_read", 1, fault, "a name, value, unit or key that is not declared, or text that cannot be read",
               "Nobody can tell what was meant, so the whole rule base is refused until it is put right."},
    ReviewKind{"never_true", 2, fault, "a condition that no answers make true",
               "What hangs on it never happens, although it looks as if it were taken care of."},
    ReviewKind{"always_true", 3, fault, "a condition that holds whatever is answered",
               "It asks for nothing, so what hangs on it holds for every bed; nearly always a slip with 'or' or 'not'."},
    ReviewKind{"doubled_rule", 4, fault, "two rules that say the same",
               "Sooner or later one of them is changed and the other is forgotten."},
    ReviewKind{
        "swallowed_rule", 4, fault, "a rule that other rules already cover",
        "Whenever it holds another rule has drawn the same conclusion, so it adds nothing, and changing it changes nothing."},
    ReviewKind{
        "contradiction", 5, fault, "answers that lead to statements which exclude each other",
        "A person who gives these answers is told two things that cannot both be true, or no explanation is left at all."},
    ReviewKind{"cannot_apply", 6, fault, "a rule or circumstance that can never count",
               "It needs something that nothing can make true, or that rules out the very thing it speaks of."},
    ReviewKind{"unused_conclusion", 7, fault, "a conclusion that nothing uses",
               "Its rules are worked out for nobody: no cause, rule, caution, clash or step looks at it."},
    ReviewKind{"unused_sign", 8, advice, "a sign that nothing uses",
               "People would be asked a question whose answer changes nothing."},
    ReviewKind{"unused_answer", 8, advice, "answers that nothing uses or tells apart",
               "People are asked to distinguish what makes no difference to anything they are told."},
    ReviewKind{"circle", 9, fault, "rules that go in a circle",
               "Each waits for the other, so none of them can ever be worked out, and the rule base is refused."},
    ReviewKind{"edge_gap", 10, fault, "one number that falls between two conditions",
               "A reading exactly at the edge counts for neither side, although its neighbours on both sides count."},
    ReviewKind{
        "edge_overlap", 10, fault, "one number that counts on both sides of an edge",
        "A reading exactly at the edge counts for both sides, although the conditions look as if they excluded each other."},
    ReviewKind{
        "edge_beside_band", 10, advice, "a threshold just beside an edge of the sign's own bands",
        "Readings between the two edges are called one thing and treated as the other; mostly one of the numbers is a slip."},
    ReviewKind{"not_decided", 0, advice, "conditions too large to be decided",
               "What was not decided was not checked either, so faults may be left in it."},
    // Evidence: what the strengths can and cannot do.
    ReviewKind{"points_infeasible", 11, fault, "a strength that the background makes impossible",
               "What is seen often anyway cannot point strongly to anything, so the strength would not be what it says."},
    ReviewKind{"says_nothing", 12, advice, "a link that says nothing",
               "The cause shows the sign as often as beds without it do, so the answer moves nothing."},
    ReviewKind{"counted_twice", 13, advice, "one answer that reaches a cause by two ways",
               "The same observation counts twice, and the cause looks surer than it is."},
    ReviewKind{"cannot_reach_action", 14, fault, "a cause that never becomes likely enough to act on",
               "Even if every answer speaks for it, its steps are never shown."},
    ReviewKind{"cannot_be_told_apart", 15, advice, "two causes that no answer tells apart",
               "Whatever is answered they stay side by side; a sign is missing on which they differ."},
    ReviewKind{"look_alikes_need_instruments", 15, advice, "look-alikes that cannot be told apart without instruments",
               "The rule base itself warns that they are confused, and a person with bare hands has nothing to tell them by."},
    ReviewKind{"no_evidence_against", 16, advice, "a cause that nothing speaks against",
               "No answer can make it less likely, so it stays on everybody's list."},
    ReviewKind{"sign_of_most_causes", 17, advice, "a sign that most causes bring about",
               "What nearly everything brings about hardly tells one thing from another."},
    ReviewKind{"too_many_expected", 18, advice, "more causes expected than anyone has at once",
               "The words for how common the causes are add up to several causes in every bed."},
    ReviewKind{"in_two_groups", 19, fault, "a sign in two groups of the same observation",
               "Neither group knows of the other, so one observation counts in full twice."},
    ReviewKind{"cause_without_step", 20, fault, "a cause without a step",
               "A person is told what is wrong, and not what to do about it."},
    ReviewKind{"cause_only_watched", 20, advice, "a trouble against which nothing is done",
               "All its steps are for looking and for habits; a person is told what is wrong, and then to wait."},
    ReviewKind{"cause_lacks_words", 20, advice, "a cause that leaves out what people ask next",
               "Whoever has acted wants to know what to expect, and how to tell it from what looks alike."},
    ReviewKind{"step_without_cause", 20, advice, "a step that no cause asks for", "Nobody is ever told to do it."},
    ReviewKind{"unused_caution", 20, advice, "a caution that is never said",
               "No step, cause or material names it, and it has no condition of its own, so nobody is warned."},
    ReviewKind{"unused_clash", 20, advice, "a clash that nothing can trigger",
               "It looks as if a danger were taken care of, but no step that could be planned falls under it."},
    ReviewKind{"unused_source", 20, advice, "a source that nothing rests on",
               "It lends weight to statements that do not come from it."},
    ReviewKind{"phrase_for_two", 20, advice, "a phrase that stands for two answers",
               "Nobody could tell which of them a caller means, so it is heard as neither."},
    ReviewKind{"phrase_never_heard", 20, advice, "a phrase that can never be heard",
               "Articles and marks are no words to the listener, and nothing else stands there."},
    ReviewKind{"case_ranks_differently", 21, fault, "a recorded case that ranks otherwise than recorded",
               "An edit has changed what people in a known case are told."},
    // Plans and care: what people would be told to do.
    ReviewKind{"steps_clash", 0, fault, "planned steps that work against each other",
               "A person would be told to do two things of which one undoes or spoils the other."},
    ReviewKind{"step_never_shown", 0, advice, "a step that no answers were found to show",
               "Its causes never become likely enough for it, or what forbids it holds whenever they do."},
    ReviewKind{"nothing_settles_it", 0, advice, "opposite steps with no sign named that settles which",
               "Neither is shown, and the person is not told what to look at to know which of them is right."},
    ReviewKind{"hazard_without_caution", 0, fault, "a hazardous step without its caution",
               "Someone could be hurt who was never warned."},
    ReviewKind{"only_from_memory", 0, advice, "a statement that rests on memory alone",
               "Nobody can look it up, so nobody can tell whether it is right."},
    // Materials: figures that people will weigh and pour by.
    ReviewKind{"material_without_moisture", 0, fault, "a material without its moisture",
               "It cannot be reckoned with: nobody can say what a mixture with it comes to."},
    ReviewKind{"material_lacks_figures", 0, advice, "a material that lacks a figure",
               "Of every mixture with it something stays unknown, and nobody is told why."},
    ReviewKind{"impossible_carbon", 0, fault, "figures of a material that cannot both be right",
               "Nitrogen times carbon to nitrogen is the carbon, and no such dry matter holds so much or so little of it."},
    ReviewKind{"dispute_not_told", 0, fault, "a figure that may be twice another, and nobody says so",
               "People take it for better known than it is, and never learn who says what."},
    ReviewKind{"read_from_nobody", 0, fault, "a figure said to be read, of which no source was seen",
               "Whoever trusts it because it was read is deceived."},
    ReviewKind{"shared_material_word", 0, fault, "a word that means two materials",
               "Who writes it into a record or a mixture is refused, or gets the other one's figures."},
    // Amounts: what steps measure out.
    ReviewKind{"amount_against_push", 0, fault, "a step that measures out what works against it",
               "Whoever carries it out to the gram makes the thing worse that the step is to mend."},
    ReviewKind{"amount_without_caution", 0, fault, "a step that measures out a hazardous material without its caution",
               "Someone is told how much of it to take, and not how it hurts."},
    ReviewKind{"stale_review", 0, advice, "an answer to advice that is no longer given",
               "What was answered is mended or renamed; a left-over answer would hide it if it came back."},
};

}  // namespace

std::span<const ReviewKind> review_kinds() { return kinds; }

const ReviewKind* find_review_kind(std::string_view id) {
    const auto found = std::ranges::find(kinds, id, &ReviewKind::id);
    return found == kinds.end() ? nullptr : &*found;
}

ReviewFinding finding_of(std::string_view id, Place place) {
    ReviewFinding finding;
    finding.kind = id;
    if (const ReviewKind* kind = find_review_kind(id)) finding.level = kind->level;
    finding.place = std::move(place);
    return finding;
}

}  // namespace lidlift
