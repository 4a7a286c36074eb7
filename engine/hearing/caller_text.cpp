#include "engine/hearing/caller_text.hpp"

#include "engine/hearing/sayings.hpp"

#include <algorithm>
#include <array>
#include <iterator>
#include <unordered_map>
#include <utility>

namespace lidlift::hearing {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80; }
char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

/// Marks outside ASCII that stand for one within it. The rest of non-ASCII text counts as letters.
constexpr auto typeset_marks = std::to_array<std::pair<std::string_view, char>>({
    {"\u2019", '\''},
    {"\u2018", '\''},
    {"\u02bc", '\''},
    {"\u201c", ' '},
    {"\u201d", ' '},
    {"\u2013", '-'},
    {"\u2014", ';'},
    {"\u2026", '.'},
    {"\u00b0", ' '},
    {"\u00ba", ' '},
    {"\u00a0", ' '},
    {"\u2212", '-'},
});

using Replacement = std::pair<std::string_view, std::string_view>;

/// One spelling for each word. Grammar that carries no meaning here ("is" and "are") is levelled too.
constexpr auto spellings = std::to_array<Replacement>({
    {"mold", "mould"},
    {"molds", "mould"},
    {"moulds", "mould"},
    {"moldy", "mouldy"},
    {"odor", "smell"},
    {"odors", "smell"},
    {"odour", "smell"},
    {"odours", "smell"},
    {"smells", "smell"},
    {"smelling", "smell"},
    {"color", "colour"},
    {"colored", "coloured"},
    {"gray", "grey"},
    {"neighbor", "neighbour"},
    {"neighbors", "neighbours"},
    {"neighboring", "neighbouring"},
    {"sulfur", "sulphur"},
    {"smoldering", "smouldering"},
    {"liter", "litre"},
    {"liters", "litres"},
    {"meter", "metre"},
    {"meters", "metres"},
    {"shriveled", "shrivelled"},
    {"fertilizer", "fertiliser"},
    {"are", "is"},
    {"am", "is"},
    {"were", "was"},
    {"wrigglers", "wigglers"},
    {"centigrade", "celsius"},
    {"okay", "fine"},
    {"ok", "fine"},
    {"alright", "fine"},
    {"hav", "have"},
    {"ur", "your"},
    {"stink", "stinks"},
    {"stinking", "stinks"},
    {"reek", "reeks"},
    {"reeking", "reeks"},
    {"cos", "because"},
    {"coz", "because"},
    {"vermibed", "vermi"},
    {"em", "them"},
    {"n", "and"},
    {"w", "with"},
});

/// Past tenses that stand in phrases in the present. ("Were" and "was" stay; PhraseIndex lets them stand for "is".)
constexpr auto past_tenses = std::to_array<Replacement>({
    {"smelled", "smell"},
    {"smelt", "smell"},
    {"stank", "stinks"},
    {"stunk", "stinks"},
    {"reeked", "reeks"},
});

/// Written together, with or without the apostrophe, and written out. Only what can mean nothing else.
constexpr auto contractions = std::to_array<Replacement>({
    {"cant", "can not"},      {"can't", "can not"},     {"cannot", "can not"},
    {"won't", "will not"},    {"wont", "will not"},     {"dont", "do not"},
    {"doesnt", "does not"},   {"didnt", "did not"},     {"isnt", "is not"},
    {"arent", "is not"},      {"wasnt", "was not"},     {"werent", "was not"},
    {"havent", "have not"},   {"hasnt", "has not"},     {"hadnt", "had not"},
    {"couldnt", "could not"}, {"wouldnt", "would not"}, {"shouldnt", "should not"},
    {"aint", "is not"},       {"ain't", "is not"},      {"its", "it is"},
    {"it's", "it is"},        {"thats", "that is"},     {"that's", "that is"},
    {"theres", "there is"},   {"there's", "there is"},  {"he's", "he is"},
    {"she's", "she is"},      {"what's", "what is"},    {"everything's", "everything is"},
    {"theyre", "they is"},    {"theyve", "they have"},  {"ive", "i have"},
    {"im", "i is"},           {"weve", "we have"},
});

/// Endings behind an apostrophe. ("I'd" may be "I had" or "I would"; "would" is the careful reading.)
constexpr auto endings = std::to_array<Replacement>(
    {{"n't", "not"}, {"'re", "is"}, {"'ve", "have"}, {"'ll", "will"}, {"'m", "is"}, {"'d", "would"}});

/// Several words that become one. Longest first at each place.
constexpr auto joined = std::to_array<Replacement>({
    {"a lot of", many_of},
    {"lots of", many_of},
    {"loads of", many_of},
    {"a load of", many_of},
    {"masses of", many_of},
    {"millions of", many_of},
    {"a million", many_of},
    {"a billion", many_of},
    {"literally hundreds of", many_of},
    {"literally thousands of", many_of},
    {"thousands of", many_of},
    {"hundreds of", many_of},
    {"dozens of", many_of},
    {"tons of", many_of},
    {"a ton of", many_of},
    {"plenty of", many_of},
    {"so many", many_of},
    // "I've never seen so many flies" counts them; it denies nothing.
    {"never seen so many", many_of},
    {"never had so many", many_of},
    {"not seen so many", many_of},
    {"never known so many", many_of},
    {"many", many_of},
    {"swarm of", many_of},
    {"swarms of", many_of},
    {"cloud of", many_of},
    {"clouds of", many_of},
    {"a few", few_of},
    {"some", few_of},
    {"a couple of", few_of},
    {"one or two", few_of},
    {"two or three", few_of},
    {"a handful of", few_of},
    {"odd", few_of},
    {"a bit of", few_of},
    {"a little bit of", few_of},
    {"a little", few_of},
    {"several", few_of},
    {"heaps of", many_of},
    {"hordes of", many_of},
    {"armies of", many_of},
    {"an army of", many_of},
    {"a mass of", many_of},
    {"bunch of", many_of},
    {"a whole bunch of", many_of},
    {"no end of", many_of},
    {"a great many", many_of},
    {"a good many", many_of},
    {"oodles of", many_of},
    {"zillions of", many_of},
    {"scores of", many_of},
    {"nearly all of my worms", "<many> worms"},
    {"nearly all of our worms", "<many> worms"},
    {"nearly all of worms", "<many> worms"},
    {"nearly all my worms", "<many> worms"},
    {"nearly all our worms", "<many> worms"},
    {"nearly all worms", "<many> worms"},
    {"nearly every worm", "<many> worms"},
    {"almost all of my worms", "<many> worms"},
    {"almost all of our worms", "<many> worms"},
    {"almost all of worms", "<many> worms"},
    {"almost all my worms", "<many> worms"},
    {"almost all our worms", "<many> worms"},
    {"almost all worms", "<many> worms"},
    {"almost every worm", "<many> worms"},
    {"sackfuls of", many_of},
    {"sacks of", many_of},
    {"a sack of", many_of},
    {"piles of", many_of},
    {"a pile of", many_of},
    {"mounds of", many_of},
    {"bucketloads of", many_of},
    {"buckets of", many_of},
    {"bucketfuls of", many_of},
    {"crates of", many_of},
    {"couple of", few_of},
    {"a small amount of", few_of},
    {"small amounts of", few_of},
    {"a pinch of", few_of},
    {"a slice of", few_of},
    {"a dollop of", few_of},
    {"a spoonful of", few_of},
    {"a scrap of", few_of},
    {"a tiny bit of", few_of},
    {"a couple", few_of},
    {"one or two of", few_of},
    {"a few of", few_of},
    // "I'd been" is "I had been", though "'d" is written out as "would".
    {"would been", "had been"},
    {"would given", "had given"},
    {"would left", "had left"},
    {"would added", "had added"},
    {"would forgotten", "had forgotten"},
    {"would taken", "had taken"},
    {"would gone", "had gone"},
    {"would fed", "had fed"},
    {"would already", "had already"},
    {"would just", "had just"},
    {"smell like", "smell of"},
    {"stinks of", "smell of"},
    {"stinks like", "smell of"},
    {"reeks of", "smell of"},
    {"reeks like", "smell of"},
    {"stench of", "smell of"},
});

/// `text` cut at spaces into words that all stand where `like` stands.
void append_words(std::vector<Word>& words, std::string_view text, const Word& like) {
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = std::min(text.find(' ', begin), text.size());
        Word word = like;
        word.text = std::string(text.substr(begin, end - begin));
        words.push_back(std::move(word));
        begin = end + 1;
    }
}

/// One of the tables above, ready to be looked up: every word of every phrase is.
class Lookup {
public:
    template <std::size_t Count>
    explicit Lookup(const std::array<Replacement, Count>& table) : entries_(table.begin(), table.end()) {}
    /// Empty where the word stands as it is.
    [[nodiscard]] std::string_view of(std::string_view word) const {
        const auto found = entries_.find(word);
        return found == entries_.end() ? std::string_view{} : found->second;
    }

private:
    std::unordered_map<std::string_view, std::string_view> entries_;
};

/// One word as it was typed -> the words it stands for.
void append_levelled(std::vector<Word>& words, Word word) {
    static const Lookup written_out_contractions(contractions);
    static const Lookup one_spelling(spellings);
    static const Lookup presents(past_tenses);
    if (const auto written_out = written_out_contractions.of(word.text); !written_out.empty())
        return append_words(words, written_out, word);
    const bool has_apostrophe = word.text.find('\'') != std::string::npos;
    for (const auto& [ending, meaning] : endings) {
        if (!has_apostrophe) break;
        if (!word.text.ends_with(ending) || word.text.size() == ending.size()) continue;
        const std::string stem = word.text.substr(0, word.text.size() - ending.size());
        const auto spelling = one_spelling.of(stem);
        append_words(words, spelling.empty() ? stem : spelling, word);
        return append_words(words, meaning, word);
    }
    word.possessive = word.text.ends_with("'s") || word.text.ends_with("s'");
    // "The bin's soggy" is said of the bin, as "the bin's lid" is.
    if (word.text.ends_with("'s")) word.text.resize(word.text.size() - 2);
    std::erase(word.text, '\'');
    if (word.text.empty() || word.text == "the") return;
    if (const auto present = presents.of(word.text); !present.empty()) {
        word.text = std::string(present);
        word.past = true;
    }
    if (const auto spelling = one_spelling.of(word.text); !spelling.empty()) word.text = std::string(spelling);
    words.push_back(std::move(word));
}

const Sayings& joined_sayings() {
    static const Sayings sayings = [] {
        std::vector<std::string_view> texts;
        for (const auto& [text, mark] : joined) texts.push_back(text);
        return Sayings(texts);
    }();
    return sayings;
}

std::vector<Word> with_sayings_joined(const std::vector<Word>& words) {
    std::vector<Word> result;
    for (std::size_t i = 0; i < words.size();) {
        const auto [length, which] = joined_sayings().longest_at(words, i);
        if (length == 0) {
            result.push_back(words[i++]);
            continue;
        }
        Word whole = words[i];
        whole.end = words[i + length - 1].end;
        append_words(result, joined[which].second, whole);
        i += length;
    }
    return result;
}

/// "I have not noticed any smell" -> "I have noticed no smell".
void level_denials(std::vector<Word>& words) {
    static const Sayings between(
        "have|had|has|been|be|notice|noticed|see|seen|find|found|smell|get|got|spot|spotted|really|actually|yet|ever|add|added|"
        "adding|put|give|gave|given|fed|used|use|come|across|there|is|was");
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (words[i].text != "not") continue;
        std::size_t any = i + 1;
        while (any < words.size() && between.has(words[any].text)) ++any;
        if (any + 1 >= words.size() || words[any].text != "any" || words[any + 1].text == "more") continue;
        words[any].text = "no";
        words.erase(words.begin() + static_cast<std::ptrdiff_t>(i));
    }
}

/// Reads typed words and punctuation, one at a time.
class Cutter {
public:
    explicit Cutter(std::string_view text) : text_(text) {}

    std::vector<Segment> segments() {
        while (at_ < text_.size()) {
            const auto [c, size] = next();
            if (is_digit(c) || (c == '-' && is_digit(peek(at_ + 1)) && !after_a_word())) {
                number();
            } else if (is_letter(c)) {
                word();
            } else if (c == '-' && after_a_word() && is_digit(text_[at_ - 1]) && is_digit(peek(at_ + size))) {
                words_.push_back(
                    {.text = "to", .begin = at_, .end = at_ + size, .corrected = {}, .kin = {}, .corrected_kin = {}});
                at_ += size;
            } else {
                punctuation(c);
                at_ += size;
            }
        }
        close(Break::full_stop);
        return std::move(segments_);
    }

private:
    [[nodiscard]] char peek(std::size_t at) const { return at < text_.size() ? text_[at] : ' '; }
    [[nodiscard]] bool after_a_word() const { return at_ > 0 && (is_letter(text_[at_ - 1]) || is_digit(text_[at_ - 1])); }

    /// The character here, and how many bytes it takes; typeset marks as their plain kin.
    [[nodiscard]] std::pair<char, std::size_t> next() const {
        if (static_cast<unsigned char>(text_[at_]) < 0x80) return {text_[at_], 1};
        for (const auto& [mark, plain] : typeset_marks)
            if (text_.substr(at_).starts_with(mark)) return {plain, mark.size()};
        return {text_[at_], 1};
    }

    void number() {
        const std::size_t begin = at_++;
        begin_ = std::min(begin_, begin);
        while (is_digit(peek(at_)) || (peek(at_) == '.' && is_digit(peek(at_ + 1)))) ++at_;
        words_.push_back({.text = std::string(text_.substr(begin, at_ - begin)),
                          .begin = begin,
                          .end = at_,
                          .corrected = {},
                          .kin = {},
                          .corrected_kin = {}});
    }

    void word() {
        Word word{.text = {}, .begin = at_, .end = at_, .corrected = {}, .kin = {}, .corrected_kin = {}};
        begin_ = std::min(begin_, at_);
        while (at_ < text_.size()) {
            const auto [c, size] = next();
            if (!is_letter(c) && c != '\'') break;
            word.text += lower(c);
            at_ += size;
        }
        word.end = at_;
        append_levelled(words_, std::move(word));
    }

    void punctuation(char c) {
        if (c == '?') return close(Break::question_mark);
        if (c == '.' || c == '!' || c == '\n') return close(Break::full_stop);
        if (c == ',' || c == ';' || c == ':' || c == '(' || c == ')' || c == '"') return close(Break::comma);
        if (c == '-' && peek(at_ + 1) == ' ' && at_ > 0 && text_[at_ - 1] == ' ') close(Break::comma);
    }

    /// "?!" and "..." end one segment only, and the stronger mark counts.
    void close(Break mark) {
        if (words_.empty()) {
            if (!segments_.empty()) segments_.back().after = std::max(segments_.back().after, mark);
            return;
        }
        level_denials(words_);
        segments_.push_back({with_sayings_joined(words_), begin_, mark});
        words_.clear();
        begin_ = text_.size();
    }

    std::string_view text_;
    std::size_t at_ = 0;
    std::size_t begin_ = text_.size();  ///< of the segment
    std::vector<Word> words_;
    std::vector<Segment> segments_;
};

}  // namespace

std::vector<Segment> cut_into_segments(std::string_view text) { return Cutter(text).segments(); }

std::vector<Word> words_of_phrase(std::string_view phrase) {
    std::vector<Word> words;
    for (Segment& segment : cut_into_segments(phrase)) std::ranges::move(segment.words, std::back_inserter(words));
    return words;
}

}  // namespace lidlift::hearing
