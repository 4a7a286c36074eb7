#include "cli/why_lines.hpp"

#include "cli/conversation.hpp"
#include "cli/in_order.hpp"
#include "cli/json_line.hpp"
#include "cli/render_json.hpp"
#include "cli/streaming.hpp"
#include "engine/heard_words.hpp"

#include <algorithm>
#include <charconv>
#include <thread>
#include <utility>

namespace lidlift::cli {
namespace {

/// So many lines are handed to a thread at once.
constexpr std::size_t lines_at_once = 16;

/// What became of some lines: objects for standard output, and mistakes for standard error.
struct Answered {
    std::string objects;
    std::vector<Complaint> complaints;
};

/// Answers lines; nothing in it changes, so that many threads may use it.
class LineAnswerer {
public:
    LineAnswerer(const RuleBase& rule_base, std::string file, bool in_short)
        : base_(rule_base), ranker_(rule_base), phrasebook_(rule_base), file_(std::move(file)), in_short_(in_short) {}

    [[nodiscard]] Answered answer(const std::vector<TextLine>& lines) const {
        Answered answered;
        for (const TextLine& line : lines)
            if (line.text.find_first_not_of(" \t") != std::string::npos) answer(line, answered);
        return answered;
    }

private:
    void answer(const TextLine& line, Answered& into) const {
        Complaints complaints;
        LineHead head{line.number, std::nullopt};
        const int number = static_cast<int>(std::min<std::size_t>(line.number, 2'000'000'000));
        Told told;
        HeardWords words;
        if (line.too_long) {
            complaints.add({"", number, 0}, "the line is longer than " + std::to_string(longest_json_line / 1024) + " KiB");
        } else {
            const JsonLine read = read_json_line(line.text, number, complaints);
            head.id = read.id;
            for (const YamlEntry& entry : read.told.entries) hear_entry(told, base_, entry, complaints);
            const bool blank = read.words.find_first_not_of(" \t\n") == std::string::npos;
            if (complaints.empty() && told.order.empty() && blank)
                complaints.add({"", number, 1}, "nothing was told that could be weighed",
                               "say 'told' or 'words': {\"told\": {\"squeeze\": \"stream\"}}");
            if (complaints.empty() && !blank) words = hear_words(told, base_, phrasebook_, read.words);
        }
        if (complaints.empty()) {
            const DiagnosisParts parts{.balances = !in_short_, .ask_next = !in_short_};
            const Diagnosis diagnosis =
                diagnose(ranker_, std::move(told), std::move(words.not_understood), std::move(words.to_ask), parts);
            into.objects += in_short_ ? render_short_line(base_, diagnosis, head) : render_json_line(base_, diagnosis, head);
            return;
        }
        const std::vector<Complaint> sorted = complaints.sorted();
        into.objects += render_bad_line(head, sorted);
        for (Complaint complaint : sorted) {
            complaint.place.file = file_;
            complaint.place.line = number;
            into.complaints.push_back(std::move(complaint));
        }
    }

    const RuleBase& base_;
    const Ranker ranker_;
    const Phrasebook phrasebook_;
    std::string file_;
    bool in_short_;
};

std::optional<unsigned> thread_count(const std::string& written) {
    if (written.empty()) return std::clamp(std::thread::hardware_concurrency(), 1U, most_threads);
    unsigned count = 0;
    const char* end = written.data() + written.size();
    const auto read = std::from_chars(written.data(), end, count);
    if (read.ec != std::errc{} || read.ptr != end || count < 1 || count > most_threads) return std::nullopt;
    return count;
}

/// The exit status.
int answer_all(LineSource& source, TextSink& sink, const LineAnswerer& answerer, unsigned threads) {
    InOrder<std::vector<TextLine>, Answered> work(threads,
                                                  [&](const std::vector<TextLine>& lines) { return answerer.answer(lines); });
    int exit = done;
    bool more = true;
    while (more || !work.empty()) {
        if (more && !work.full()) {
            std::vector<TextLine> lines;
            // While something is under way its result must not wait for a line that somebody has yet to write.
            switch (source.next(lines, lines_at_once, work.empty())) {
                case LineSource::What::lines:
                    work.give(std::move(lines));
                    continue;
                case LineSource::What::nothing_yet:
                    break;
                case LineSource::What::fault:
                    print_error(source.fault());
                    exit = cannot_read_or_write;
                    [[fallthrough]];
                case LineSource::What::signal:
                case LineSource::What::end:
                    more = false;
                    break;
            }
        }
        if (work.empty()) continue;
        const Answered answered = work.take();
        if (!sink.write(answered.objects)) {
            if (!sink.broken_pipe()) print_error("cannot write to standard output");
            exit = cannot_read_or_write;
            break;
        }
        if (print_complaints(answered.complaints) && exit == done) exit = unusable_input;
    }
    return exit;
}

}  // namespace

int why_lines(const Options& options, const WhyLinesOptions& lines_options) {
    const auto threads = thread_count(lines_options.threads);
    if (!threads) {
        print_error("--threads takes a whole number from 1 to " + std::to_string(most_threads) + ", not '" +
                    lines_options.threads + "'");
        return unusable_input;
    }
    const Loaded loaded = load_rule_base(options);
    if (!loaded.rule_base) return loaded.exit;
    const std::string& path = lines_options.cases;
    const LineAnswerer answerer(*loaded.rule_base, path == "-" ? "standard input" : path, lines_options.in_short);
    int exit = done;
    int signal = 0;
    {
        const HeldSignals signals;
        LineSource source(signals, longest_json_line);
        if (const auto fault = source.open(path)) {
            print_error(fault->text);
            return cannot_read_or_write;
        }
        TextSink sink(signals);
        exit = answer_all(source, sink, answerer, *threads);
        signal = signals.caught();
    }
    if (signal != 0) end_by(signal);
    return exit;
}

}  // namespace lidlift::cli
