#include "cli/ask.hpp"

#include "cli/call_file.hpp"
#include "cli/conversation.hpp"
#include "cli/files.hpp"
#include "cli/render_ask.hpp"
#include "cli/render_json.hpp"
#include "cli/tank_file.hpp"
#include "engine/call_record_reader.hpp"
#include "engine/interview.hpp"
#include "engine/plain_text.hpp"
#include "engine/tank_diagnosis.hpp"

#include <algorithm>
#include <ctime>
#include <filesystem>
#include <optional>
#include <utility>

namespace lidlift::cli {
namespace {

/// The local clock.
Moment now() {
    const std::time_t time = std::time(nullptr);
    std::tm local = {};
    ::localtime_r(&time, &local);
    const std::chrono::year_month_day day{std::chrono::year(local.tm_year + 1900),
                                          std::chrono::month(static_cast<unsigned>(local.tm_mon + 1)),
                                          std::chrono::day(static_cast<unsigned>(local.tm_mday))};
    return {Day(day), local.tm_hour * 3600 + local.tm_min * 60 + std::min(local.tm_sec, 59)};
}

/// The call so far, from its file; `exit` is not `done` when it cannot be used, and the reasons are printed.
struct Opened {
    std::optional<CallFile> file;
    std::optional<CallRecord> record;  ///< of a call that goes on
    int exit = done;
};

Opened open_record(const AskOptions& options) {
    Opened opened;
    if (options.record.empty()) {
        if (!options.again) return opened;
        print_error("--again takes up a recorded call: say its file with --record FILE");
        opened.exit = unusable_input;
        return opened;
    }
    std::error_code error;
    if (options.again && !std::filesystem::is_regular_file(options.record, error)) {
        print_error("--again takes up a recorded call, and '" + options.record + "' is not the file of one");
        opened.exit = unusable_input;
        return opened;
    }
    auto file = CallFile::open(options.record, now());
    if (!file) {
        print_error(file.fault().text);
        opened.exit = cannot_read_or_write;
        return opened;
    }
    // A new file, or one that was made and never written to.
    if (!file->text().empty()) {
        Complaints complaints;
        CallRecord record = read_call(file->text(), options.record, complaints);
        if (print_complaints(complaints.sorted())) {
            opened.exit = unusable_input;
        } else if (record.closed && !options.again) {
            print_error("the call in '" + options.record + "' is closed; --again takes it up once more");
            opened.exit = unusable_input;
        }
        opened.record = std::move(record);
    }
    opened.file = std::move(*file);
    return opened;
}

/// One call from the greeting to the end.
class Call {
public:
    Call(Interview& interview, Conversation& conversation, std::optional<CallFile> file)
        : interview_(interview), conversation_(conversation), file_(std::move(file)) {}

    /// Returns the signal that ended it, or 0.
    int run(std::vector<Shown> first) {
        keep();
        conversation_.say(render_greeting(page()));
        show(first);
        while (!interview_.ended() && heard_by_somebody_) {
            heard_by_somebody_ = conversation_.prompt() && heard_by_somebody_;
            const HeardLine heard = conversation_.next_line();
            if (heard.what == HeardLine::What::signal) {
                say_goodbye();
                return heard.signal;
            }
            if (heard.what == HeardLine::What::end) {
                conversation_.say("\n");
                turn(interview_.end_of_input(now()));
            } else if (const auto bad = find_bad_character(heard.line)) {
                Page text(conversation_.screen());
                text.paragraph("", "I cannot read that line: it holds " + bad->what + ". Please say it in plain letters.");
                conversation_.say(text.take());
            } else {
                heard_by_somebody_ = conversation_.repeat(for_terminal(heard.line)) && heard_by_somebody_;
                turn(interview_.hear(heard.line, now()));
            }
        }
        return 0;
    }

    /// All that was to be shown could be written.
    [[nodiscard]] bool shown() const { return heard_by_somebody_; }
    /// The record holds all that was said.
    [[nodiscard]] bool kept() const { return kept_; }

private:
    [[nodiscard]] AskPage page() const { return {conversation_.screen(), file_ ? file_->path() : std::string{}}; }

    /// Every answer is on the disk before the next question is on the screen.
    void turn(const std::vector<Shown>& shown) {
        keep();
        show(shown);
    }

    void show(const std::vector<Shown>& shown) {
        heard_by_somebody_ = conversation_.say(render_shown(interview_, shown, page())) && heard_by_somebody_;
    }

    void keep() {
        if (!file_) return;
        const auto fault = file_->write(write_call(interview_.record()), now());
        if (fault && kept_) print_error(fault->text + "; the call goes on, but what is said from here on is not written down");
        if (!fault && !kept_) print_error("the call record is written again, with all that was said: " + file_->path());
        if (file_->moved())
            print_error("somebody else changed the call record meanwhile; theirs is left as it is, and this call is kept in " +
                        file_->path());
        kept_ = !fault;
    }

    void say_goodbye() {
        Page text(conversation_.screen());
        text.empty_line();
        if (!file_) {
            text.paragraph("", "Broken off. Nothing was written down.");
        } else if (kept_) {
            text.paragraph("", "Broken off. Every answer so far is kept. To go on:");
            text.unbroken("  ", how_to_go_on(file_->path(), false));
        } else {
            text.paragraph("", "Broken off. Not every answer could be written down.");
        }
        conversation_.say(text.take());
    }

    Interview& interview_;
    Conversation& conversation_;
    std::optional<CallFile> file_;
    bool kept_ = true;
    bool heard_by_somebody_ = true;
};

}  // namespace

int ask(const Options& options, const AskOptions& ask_options) {
    if (ask_options.tank.empty() && !ask_options.bay.empty()) {
        print_error("--bay is about a tank's record; name it with --tank FILE");
        return unusable_input;
    }
    if (ask_options.tank == "-") {
        print_error("standard input is for the answers; put the tank's record into a file");
        return unusable_input;
    }
    const Loaded loaded = load_rule_base(options);
    if (!loaded.rule_base) return loaded.exit;
    LoadedTank tank;
    if (!ask_options.tank.empty()) {
        tank = load_tank(ask_options.tank, ask_options.bay, {}, *loaded.rule_base);
        if (tank.exit != done) return tank.exit;
    }
    Opened opened = open_record(ask_options);
    if (opened.exit != done) return opened.exit;
    const Ranker ranker(*loaded.rule_base);
    const Phrasebook phrasebook(*loaded.rule_base);
    std::string tank_path = ask_options.tank;
    std::string bay = ask_options.bay;
    if (tank_path.empty() && opened.record && !opened.record->tank.empty()) {
        // The call goes on without its tank where that cannot be read any more; the reasons were printed.
        tank_path = opened.record->tank;
        bay = opened.record->bay;
        tank = load_tank(tank_path, bay, {}, *loaded.rule_base);
        if (tank.exit != done) print_error("the call goes on without what the tank's record tells; --tank FILE names it anew");
    }
    if (opened.record) {
        opened.record->tank = tank_path;
        opened.record->bay = bay;
    }
    Told known;
    std::optional<TankSeen> seen;
    if (tank.record) seen = look_into(ranker, std::move(*tank.record), tank.today, tank.bay, known);
    Interview interview(ranker, phrasebook, std::move(known), {}, std::move(seen));
    int signal = 0;
    bool kept = true;
    bool shown = true;
    {
        Conversation conversation(options.json);
        std::vector<Shown> first = !opened.record      ? interview.begin(now(), tank_path, bay)
                                   : ask_options.again ? interview.follow_up(std::move(*opened.record), now())
                                                       : interview.resume(std::move(*opened.record), now());
        Call call(interview, conversation, std::move(opened.file));
        signal = call.run(std::move(first));
        kept = call.kept();
        shown = call.shown();
        if (signal != 0) end_by(signal);
    }
    if (options.json && interview.diagnosis() && !print(render_json(*loaded.rule_base, *interview.diagnosis())))
        return cannot_read_or_write;
    if (!shown) print_error(std::string("cannot write to standard ") + (options.json ? "error" : "output"));
    return kept && shown ? done : cannot_read_or_write;
}

}  // namespace lidlift::cli
