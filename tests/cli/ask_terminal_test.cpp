// `lidlift ask` at a pseudo-terminal, as a person meets it: every wish, every width, and every way to lose the line.
#include "engine/call_record_reader.hpp"
#include "engine/plain_text.hpp"
#include "tests/catch.hpp"
#include "tests/cli/terminal.hpp"

#include <algorithm>
#include <filesystem>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace cli_ask_terminal_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

constexpr const char* story = "it reeks of rotten eggs and the worms are all up the walls";

/// The widest line, typed ones and file names left out.
std::size_t widest(const std::string& text) {
    std::istringstream lines(text);
    std::size_t width = 0;
    for (std::string line; std::getline(lines, line);)
        if (line.find('/') == std::string::npos && line.rfind("> ", 0) != 0) width = std::max(width, display_width(line));
    return width;
}

bool is_ascii(const std::string& text) {
    return std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

CallRecord record_in(const std::string& path) {
    Complaints complaints;
    CallRecord record = read_call(file_text(path), path, complaints);
    for (const Complaint& complaint : complaints.sorted()) FAIL(to_text(complaint));
    return record;
}

/// The typed words of all exchanges that count.
std::vector<std::string> typed(const CallRecord& record) {
    std::vector<std::string> words;
    for (const CallEntry* entry : what_counts(record))
        if (entry->kind <= CallEntry::Kind::news) words.push_back(entry->words);
    return words;
}

}  // namespace

TEST_CASE("at a terminal every wish is granted and the call ends with advice", "[ask][terminal]") {
    Terminal terminal({"ask"});
    CHECK(holds(terminal.read(), "Tell me in your own words"));
    std::string text = terminal.type(story);
    CHECK(holds(text, "This is what I understood."));
    CHECK(holds(text, "Before anything else"));
    CHECK(holds(terminal.type("why"), "people come first"));
    text = terminal.type("none");
    CHECK(holds(text, "Question 1."));
    CHECK(holds(terminal.type("why"), "I ask because of what each answer would do."));
    CHECK(holds(terminal.type("so far"), "This is what I think so far."));
    CHECK(holds(terminal.type("help"), "You can also say"));
    CHECK(holds(terminal.type("list"), "This is what you told me so far."));
    CHECK(holds(terminal.type("purple elephants"), "could not take that"));
    CHECK(holds(terminal.type("don't know"), "Question 2."));
    text = terminal.type("back");
    CHECK(holds(text, "Taken back."));
    CHECK(holds(text, "Question 1."));
    CHECK(holds(terminal.type("change 1"), "Once more, to put it right"));
    CHECK(holds(terminal.type("2"), "Noted."));
    CHECK(holds(terminal.type("change 77"), "There is no answer of that number."));
    text = terminal.type("stop");
    CHECK(holds(text, "No more questions."));
    CHECK(holds(text, "IN SHORT"));
    CHECK(holds(text, "WHAT WOULD CHANGE MY MIND"));
    CHECK(holds(text, "CALL AGAIN"));
    CHECK(is_tame(text));
    CHECK(terminal.wait() == 0);
}

TEST_CASE("don't know all the way through ends by itself", "[ask][terminal]") {
    Terminal terminal({"ask"});
    terminal.read();
    std::string text = terminal.type("it is too wet");
    for (int i = 0; i < 14 && !holds(text, "I stop asking"); ++i) text = terminal.type("don't know");
    CHECK(holds(text, "I stop asking, because"));
    CHECK(holds(text, "CALL AGAIN"));
    CHECK(terminal.wait() == 0);
}

TEST_CASE("the end of the input, at any question, brings the advice", "[ask][terminal]") {
    const std::vector<std::string> lines = {story, "none", "1", "don't know", "1"};
    for (std::size_t many = 0; many <= lines.size(); ++many) {
        CAPTURE(many);
        Terminal terminal({"ask"});
        terminal.read();
        std::string text;
        for (std::size_t i = 0; i < many; ++i) text = terminal.type(lines[i]);
        if (holds(text, "I stop asking")) break;
        terminal.press("\x04");
        text = terminal.read();
        CHECK(holds(text, "Nothing more was said. This is what I can say now."));
        CHECK(holds(text, "IN SHORT"));
        CHECK(terminal.wait() == 0);
    }
}

TEST_CASE("the other pages fill a narrow terminal as well", "[ask][terminal]") {
    const std::string site = LIDLIFT_TESTS_FOLDER "/../examples/quince_lane";
    for (const std::vector<std::string>& words : {std::vector<std::string>{"why", "squeeze=stream", "drain=blocked"},
                                                  {"mix", "30", "kg", "kitchen_waste"},
                                                  {"show", "signs", "squeeze"},
                                                  {"round", site, "--on", "2026-06-15"}}) {
        CAPTURE(words.front());
        Terminal terminal(words, {.columns = 40});
        const std::string page = terminal.read();
        CHECK(widest(page) <= 40);
        CHECK(widest(page) > 34);
        CHECK(terminal.wait() == 0);
    }
}

TEST_CASE("a narrow terminal is filled and not overrun, and its width may change at any time", "[ask][terminal]") {
    Terminal terminal({"ask"}, {.columns = 40});
    std::string all = terminal.read();
    all += terminal.type(story);
    all += terminal.type("none");
    all += terminal.type("why");
    all += terminal.type("so far");
    all += terminal.type("help");
    CHECK(widest(all) <= 40);
    CHECK(widest(all) > 34);
    terminal.resize(100);
    const std::string wide = terminal.type("help");
    CHECK(widest(wide) > 80);
    CHECK(widest(wide) <= 100);
    terminal.resize(40);
    const std::string text = terminal.type("stop");
    CHECK(holds(text, "IN SHORT"));
    CHECK(widest(text) <= 40);
    CHECK(terminal.wait() == 0);
}

TEST_CASE("plain ASCII where the locale is plain, and UTF-8 where it is UTF-8", "[ask][terminal]") {
    for (const std::string locale : {"C", "POSIX", "C.UTF-8", "en_GB.utf8"}) {
        CAPTURE(locale);
        const bool utf8 = locale.size() > 5;
        Terminal terminal({"ask"}, {.locale = locale});
        std::string text = terminal.read();
        text += terminal.type("the bed is 41 degrees Celsius inside, it smells of ammonia");
        text += terminal.type("none");
        text += terminal.type("list");
        text += terminal.type("stop");
        CHECK(is_ascii(text) == !utf8);
        CHECK(holds(text, utf8 ? "41 °C" : "41 C"));
        CHECK(terminal.wait() == 0);
    }
}

TEST_CASE("what is no sound text is refused with a word, and the question stays", "[ask][terminal]") {
    Terminal terminal({"ask"});
    terminal.read();
    CHECK(holds(terminal.type("caf\xE9"), "a byte that is not UTF-8"));
    CHECK(holds(terminal.type("\x1b[A up"), "the control character U+001B"));
    CHECK(holds(terminal.type(story), "This is what I understood."));
}

TEST_CASE("killed at every question, a call goes on with all answers so far", "[ask][terminal]") {
    const TemporaryFolder folder;
    const std::string path = folder.path("call.yaml");
    std::vector<std::string> said;
    std::string text;
    for (int i = 0; i < 16; ++i) {
        Terminal terminal({"ask", "--record", path});
        text = terminal.read();
        CHECK(typed(record_in(path)) == said);
        if (i > 0) CHECK(holds(text, "We go on with the call that began on "));
        // The first words, then whatever is asked.
        said.push_back(i == 0 ? story : holds(text, "Before anything else") ? "none" : i % 3 == 1 ? "1" : "don't know");
        text = terminal.type(said.back());
        terminal.kill(SIGKILL);
        CHECK(terminal.wait() == (holds(text, "CALL AGAIN") ? 0 : -SIGKILL));
        CHECK(typed(record_in(path)) == said);
        if (holds(text, "CALL AGAIN")) break;
    }
    CHECK(holds(text, "I stop asking"));
    CHECK(record_in(path).course.back().kind == CallEntry::Kind::advised);
    CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 1);  // nothing is left beside it
}

TEST_CASE("Ctrl-C, hang-up and the request to end lose nothing, and say where it is", "[ask][terminal]") {
    const TemporaryFolder folder;
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
        CAPTURE(signal);
        const std::string path = folder.path(std::to_string(signal) + ".yaml");
        Terminal terminal({"ask", "--record", path});
        terminal.read();
        terminal.type(story);
        terminal.type("none");
        if (signal == SIGINT) terminal.press("\x03");
        if (signal == SIGTERM) terminal.kill(SIGTERM);
        if (signal == SIGHUP) {
            terminal.hang_up();
        } else {
            const std::string text = terminal.read();
            CHECK(holds(text, "Every answer so far is kept."));
            CHECK(holds(text, "lidlift ask --record " + path));
        }
        CHECK(terminal.wait() == -signal);
        CHECK(typed(record_in(path)) == std::vector<std::string>{story, "none"});
    }
    Terminal terminal({"ask"});
    terminal.read();
    terminal.press("\x03");
    CHECK(holds(terminal.read(), "Nothing was written down."));
    CHECK(terminal.wait() == -SIGINT);
}

TEST_CASE("where the record cannot grow it is said, and the advice is given all the same", "[ask][terminal]") {
    const TemporaryFolder folder;
    const std::string path = folder.path("call.yaml");
    Terminal terminal({"ask", "--record", path}, {.largest_file = 700});
    terminal.read();
    terminal.type(story);
    std::string text = terminal.type("none");
    for (int i = 0; i < 8 && !holds(text, "cannot write"); ++i) text += terminal.type("don't know");
    CHECK(holds(unwrapped(text), "cannot write '" + path + "'"));
    CHECK(holds(text, "the call goes on"));
    text = terminal.type("stop");
    CHECK(holds(text, "IN SHORT"));
    CHECK(terminal.wait() == 3);
    const auto kept = typed(record_in(path));  // as far as it went, it is whole
    CHECK_FALSE(kept.empty());
    CHECK(kept.front() == story);
    CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 1);
}

TEST_CASE("two desks that share a folder never write the same file", "[ask][terminal]") {
    const TemporaryFolder folder;
    std::set<std::string> names;
    for (int i = 0; i < 3; ++i) {
        Terminal first({"ask", "--record", folder.path()});
        Terminal second({"ask", "--record", folder.path()});
        first.read();
        second.read();
        first.type("it is too wet");
        second.type(story);
    }
    for (const auto& entry : std::filesystem::directory_iterator(folder.path())) {
        names.insert(entry.path().filename().string());
        CHECK(record_in(entry.path().string()).course.size() == 1);
        CHECK(entry.path().filename().string().substr(0, 7) == "call-20");
    }
    CHECK(names.size() == 6);
}

TEST_CASE("a call record that somebody else changed meanwhile is left alone", "[ask][terminal]") {
    const TemporaryFolder folder;
    const std::string path = folder.path("call.yaml");
    Terminal terminal({"ask", "--record", path});
    terminal.read();
    const std::string theirs = file_text(path) + "# somebody was here\n";
    folder.write("call.yaml", theirs);
    CHECK(holds(unwrapped(terminal.type(story)), "theirs is left as it is, and this call is kept in"));
    CHECK(file_text(path) == theirs);
    terminal.type("none");
    terminal.kill(SIGKILL);
    terminal.wait();
    CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 2);
    for (const auto& entry : std::filesystem::directory_iterator(folder.path()))
        if (entry.path() != path) CHECK(typed(record_in(entry.path().string())) == std::vector<std::string>{story, "none"});
}

}  // namespace cli_ask_terminal_test
