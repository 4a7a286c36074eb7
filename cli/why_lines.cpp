#include "cli/why_lines.hpp"

#include "cli/conversation.hpp"
#include "cli/in_order.hpp"
#include "cli/json_line.hpp"
#include "cli/line_answerer.hpp"
#include "cli/streaming.hpp"

#include <algorithm>
#include <charconv>
#include <thread>
#include <utility>

namespace lidlift::cli {
namespace {

/// So many lines are handed to a thread at once.
constexpr std::size_t lines_at_once = 16;

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
    InOrder<std::vector<TextLine>, AnsweredLines> work(
        threads, [&](const std::vector<TextLine>& lines) { return answerer.answer(lines); });
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
        const AnsweredLines answered = work.take();
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
