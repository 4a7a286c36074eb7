// lidlift why --cases: one object a line in, one a line out (rules/LINES.md).
#include "cli/why_lines.hpp"

#include "cli/json_line.hpp"
#include "tests/cli/program.hpp"

#include <array>
#include <cstdlib>
#include <poll.h>
#include <string>
#include <sys/resource.h>
#include <vector>

#include <nlohmann/json.hpp>

namespace cli_why_lines_test {

using namespace lidlift::test;
using nlohmann::json;
using Words = std::vector<std::string>;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = text.find('\n', begin);
        REQUIRE(end != std::string::npos);  // every line is whole
        lines.push_back(text.substr(begin, end - begin));
        begin = end + 1;
    }
    return lines;
}

Run run_lines(const std::string& input, Words more = {"--short"}) {
    more.insert(more.begin(), {"why", "--cases", "-"});
    return run(more, input);
}

json only_answer(const std::string& line, const Words& more = {"--short"}) {
    const Run result = run_lines(line + "\n", more);
    check_answer(result);
    const auto lines = lines_of(result.out);
    REQUIRE(lines.size() == 1);
    return json::parse(lines.front());
}

/// Some hundred beds, none like its neighbour.
std::string many_lines(int count) {
    const std::array<std::string, 5> smells = {"strong", "faint", "none", "?", "strong,unsure"};
    const std::array<std::string, 3> squeezes = {"stream", "few_drops", "dry_crumbles"};
    std::string text;
    for (int i = 0; i < count; ++i) {
        text += R"({"id": )" + std::to_string(i) + R"(, "told": {"smell_rotten": ")" + smells[static_cast<std::size_t>(i) % 5] +
                '"';
        if (i % 2 == 0) text += R"(, "squeeze": ")" + squeezes[static_cast<std::size_t>(i / 2) % 3] + '"';
        if (i % 3 == 0) text += R"(, "bed_temperature": )" + std::to_string(15 + i % 20);
        text += "}}\n";
        if (i % 17 == 0)
            text += R"({"words": "they are all up the walls and it stinks of ammonia"})"
                    "\n";
        if (i % 23 == 0)
            text += R"({"told": {"smel_rotten": "strong"}})"
                    "\n";
    }
    return text;
}

/// The address sanitizer does, so that there the memory of a run tells nothing.
#if defined(__SANITIZE_ADDRESS__)
constexpr bool keeps_freed_memory = true;
#else
constexpr bool keeps_freed_memory = false;
#endif

/// The most memory that a run took, in KiB.
long peak_of(const std::string& file) {
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, 1, "/dev/null", O_WRONLY, 0);
    Words words = {LIDLIFT_PROGRAM, "why", "--cases", file, "--short", "--threads", "2"};
    std::vector<char*> argv;
    for (std::string& word : words) argv.push_back(word.data());
    argv.push_back(nullptr);
    pid_t child = 0;
    REQUIRE(posix_spawn(&child, LIDLIFT_PROGRAM, &actions, nullptr, argv.data(), environ) == 0);
    posix_spawn_file_actions_destroy(&actions);
    int status = 0;
    rusage usage = {};
    REQUIRE(wait4(child, &status, 0, &usage) == child);
    CHECK((WIFEXITED(status) && WEXITSTATUS(status) == 0));
    return usage.ru_maxrss;
}

/// The program with a pipe at either end.
class Beside {
public:
    Beside() {
        std::array<int, 2> in{};
        std::array<int, 2> out{};
        REQUIRE(pipe2(in.data(), O_CLOEXEC) == 0);
        REQUIRE(pipe2(out.data(), O_CLOEXEC) == 0);
        posix_spawn_file_actions_t actions;
        posix_spawn_file_actions_init(&actions);
        posix_spawn_file_actions_adddup2(&actions, in[0], 0);
        posix_spawn_file_actions_adddup2(&actions, out[1], 1);
        Words words = {LIDLIFT_PROGRAM, "why", "--cases", "-", "--short"};
        std::vector<char*> argv;
        for (std::string& word : words) argv.push_back(word.data());
        argv.push_back(nullptr);
        REQUIRE(posix_spawn(&child_, LIDLIFT_PROGRAM, &actions, nullptr, argv.data(), environ) == 0);
        posix_spawn_file_actions_destroy(&actions);
        close(in[0]);
        close(out[1]);
        to_ = in[1];
        from_ = out[0];
    }
    ~Beside() {
        close(from_);
        if (to_ >= 0) close(to_);
    }
    void say(const std::string& text) { REQUIRE(write(to_, text.data(), text.size()) == static_cast<ssize_t>(text.size())); }
    /// The next line, if it comes within a minute.
    std::string hear() {
        while (heard_.find('\n') == std::string::npos) {
            pollfd one = {from_, POLLIN, 0};
            if (poll(&one, 1, 60'000) <= 0) return "nothing came";
            std::array<char, 4096> bytes{};
            const ssize_t count = read(from_, bytes.data(), bytes.size());
            if (count <= 0) return "it ended";
            heard_.append(bytes.data(), static_cast<std::size_t>(count));
        }
        const std::string line = heard_.substr(0, heard_.find('\n'));
        heard_.erase(0, line.size() + 1);
        return line;
    }
    int end_by(int signal) {
        kill(child_, signal);
        int status = 0;
        REQUIRE(waitpid(child_, &status, 0) == child_);
        return WIFSIGNALED(status) ? WTERMSIG(status) : -1;
    }

private:
    pid_t child_ = 0;
    int to_ = -1;
    int from_ = -1;
    std::string heard_;
};

}  // namespace

TEST_CASE("a line says what the same answers say on the command line", "[cli][lines]") {
    json line = only_answer(
        R"({"id": "call-17", "told": {"smell_rotten": "strong", "worm_place": ["up_walls_lid", "outside_dried"], "bed_temperature": 31}})",
        {});
    CHECK(line["line"] == 1);
    CHECK(line["id"] == "call-17");
    json same = json::parse(
        run({"why", "--json", "smell_rotten=strong", "worm_place=up_walls_lid,outside_dried", "bed_temperature=31"}).out);
    line.erase("line");
    line.erase("id");
    for (json* each : {&line, &same})
        for (json& understood : (*each)["understood"]) understood.erase("from");  // by a file, by a person
    CHECK(line == same);
}

TEST_CASE("every way to write an answer means what the command line means by it", "[cli][lines]") {
    const auto value = [](const std::string& told) {
        const json line = only_answer(R"({"told": )" + told + "}", {});
        REQUIRE(line["understood"].size() == 1);
        return line["understood"][0]["value"].get<std::string>() + "/" + line["understood"][0]["means"].get<std::string>();
    };
    const auto on_command_line = [](const std::string& argument) {
        const json whole = json::parse(run({"why", "--json", argument}).out);
        return whole["understood"][0]["value"].get<std::string>() + "/" + whole["understood"][0]["means"].get<std::string>();
    };
    CHECK(value(R"({"squeeze": "stream"})") == on_command_line("squeeze=stream"));
    CHECK(value(R"({"squeeze": "not stream"})") == on_command_line("squeeze=not stream"));
    CHECK(value(R"({"squeeze": "?"})") == on_command_line("squeeze=?"));
    CHECK(value(R"({"Squeeze": {"is": "Stream", "sure": "guess"}})") == on_command_line("squeeze=stream,guess"));
    CHECK(value(R"({"worm_place": {"is": ["up_walls_lid", "outside_dried"], "sure": "unsure"}})") ==
          on_command_line("worm_place=up_walls_lid,outside_dried,unsure"));
    CHECK(value(R"({"bed_temperature": 31.5})") == on_command_line("bed_temperature=31.5"));
    CHECK(value(R"({"bed_temperature": "88 \u00b0F"})") == on_command_line("bed_temperature=88 °F"));
    CHECK(value(R"({"rain_entry": true})") == on_command_line("rain_entry=yes"));
    CHECK(value(R"({"rain_entry": false})") == on_command_line("rain_entry=no"));
}

TEST_CASE("one thread and many give the same bytes, in the order of the lines", "[cli][lines]") {
    const std::string input = many_lines(200);
    const Run one = run_lines(input, {"--threads", "1"});
    const Run many = run_lines(input, {"--threads", "7"});
    CHECK(one.exit == 2);  // some lines are bad on purpose
    CHECK(many.exit == 2);
    CHECK(one.out == many.out);
    CHECK(one.err == many.err);
    const auto lines = lines_of(one.out);
    REQUIRE(lines.size() == static_cast<std::size_t>(std::count(input.begin(), input.end(), '\n')));
    for (std::size_t i = 0; i < lines.size(); ++i) CHECK(json::parse(lines[i])["line"] == i + 1);
}

TEST_CASE("short answers name the same causes, cautions and steps as the full ones", "[cli][lines]") {
    const std::string line =
        R"({"words": "it reeks of rotten eggs and the bed is dripping wet", "told": {"drain": "blocked"}})";
    const json full = only_answer(line, {});
    const json brief = only_answer(line);
    const auto ids = [](const json& list) {
        json result = json::array();
        for (const json& one : list) result.push_back(one["id"]);
        return result;
    };
    CHECK_FALSE(brief["cautions"].empty());
    CHECK(brief["cautions"] == ids(full["cautions"]));
    CHECK(brief["steps"] == ids(full["steps"]));
    CHECK(ids(brief["causes"]) == ids(full["causes"]));
    CHECK(brief["verdict"] == full["verdict"]);
    for (std::size_t i = 0; i < brief["causes"].size(); ++i) CHECK(brief["causes"][i]["chance"] == full["causes"][i]["chance"]);
    const std::string written = run_lines(line + "\n").out;
    CHECK(written.find("\"cautions\"") < written.find("\"steps\""));
}

TEST_CASE("a bad line is told with its place, and the rest goes on", "[cli][lines]") {
    struct Row {
        std::string line;
        int column;
        std::string says;
    };
    for (const Row& row :
         std::vector<Row>{{R"({"told": {"smel_rotten": "strong"}})", 11, "there is no sign 'smel_rotten'"},
                          {R"({"told": {"squeeze": "streem"}})", 22, "has no answer 'streem'"},
                          {R"({"told": {"squeeze": ["stream", "dry_crumbles"]}})", 22, "exclude one another"},
                          {R"({"told": {"squeeze": null}})", 22, "null is no answer"},
                          {R"({"told": {"bed_temperature": 1e3}})", 30, "1e3"},
                          {R"({"told": {"squeeze": "stream"}, "tolled": 1})", 33, "unknown key 'tolled'"},
                          {R"({"told": {"squeeze": "stream", "squeeze": "stream"}})", 32, "stands there twice"},
                          {R"({"told": ["squeeze"]})", 10, "'told' should be an object"},
                          {R"({"told": {"squeeze": {"is": "stream", "sure": "maybe"}}})", 47, "maybe"},
                          {R"({"id": 1.5, "told": {"squeeze": "stream"}})", 8, "'id' should be"},
                          {R"({"id": 9223372036854775808, "told": {"squeeze": "stream"}})", 8, "'id' should be"},
                          {R"({"told": {"squeeze": "stream"})", 31, "ends before its JSON does"},
                          {R"({"told": {"squeeze": stream}})", 22, "this is not JSON from 'stream' on"},
                          {R"({"told": {"squeeze": "stream"}} {})", 33, "this is not JSON from '{' on"},
                          {R"(["told"])", 1, "a line"},
                          {R"({})", 1, "nothing was told"},
                          {R"({"told": {}, "words": "  "})", 1, "nothing was told"},
                          {R"({"words": ["up the walls"]})", 11, "should be a text"},
                          {R"({"words": "a \u001b[31m"})", 11, "U+001B"},
                          {"{\"words\": \"\xff\"}", 12, "a byte that is not UTF-8"},
                          {R"({"words": "\ud800"})", 11, "not JSON"},
                          {"\xEF\xBB\xBF{}", 1, "byte-order mark"}}) {
        CAPTURE(row.line);
        const std::string good = R"({"told": {"squeeze": "stream"}})";
        const Run result = run_lines(good + "\n" + row.line + "\n" + good + "\n");
        CHECK(result.exit == 2);
        const auto lines = lines_of(result.out);
        REQUIRE(lines.size() == 3);
        CHECK(json::parse(lines[0])["causes"] == json::parse(lines[2])["causes"]);
        const json bad = json::parse(lines[1]);
        CHECK(bad["line"] == 2);
        REQUIRE_FALSE(bad["error"]["mistakes"].empty());
        CHECK(bad["error"]["mistakes"][0]["column"] == row.column);
        CHECK(holds(bad["error"]["mistakes"][0]["text"].get<std::string>(), row.says));
        CHECK(holds(result.err, "lidlift: standard input:2:" + std::to_string(row.column) + ": "));
        CHECK(holds(result.err, row.says));
        CHECK(is_tame(result.err));
        CHECK(is_tame(result.out));
    }
}

TEST_CASE("blank lines, CR LF, a byte-order mark and no end of the last line", "[cli][lines]") {
    const std::string line = R"({"told": {"squeeze": "stream"}})";
    const Run result = run_lines("\xEF\xBB\xBF" + line + "\r\n\r\n  \t\n\n" + line);
    check_answer(result);
    const auto lines = lines_of(result.out);
    REQUIRE(lines.size() == 2);
    CHECK(json::parse(lines[0])["line"] == 1);
    CHECK(json::parse(lines[1])["line"] == 5);
    CHECK(json::parse(lines[0])["causes"] == json::parse(lines[1])["causes"]);
    for (const std::string nothing : {"", "\n", "\r\n\r\n"}) {
        const Run empty = run_lines(nothing);
        CHECK(empty.exit == 0);
        CHECK(empty.out.empty());
        CHECK(empty.err.empty());
    }
}

TEST_CASE("limits of a line: met, and passed by one", "[cli][lines][limits]") {
    using namespace lidlift::cli;
    const auto check = [](const std::string& fits, const std::string& too_much, const std::string& says) {
        CAPTURE(says);
        const Run good = run_lines(fits + "\n");
        CHECK(good.exit == 0);
        CHECK(good.err == "");
        const Run bad = run_lines(too_much + "\r\n" + fits + "\n");
        CHECK(bad.exit == 2);
        CHECK(holds(bad.err, says));
        CHECK(lines_of(bad.out).size() == 2);
        CHECK(holds(lines_of(bad.out).back(), "\"causes\""));
    };
    const std::string told = R"("told": {"squeeze": "stream"})";
    const std::string line = "{" + told + "}";
    check(line + std::string(longest_json_line - line.size(), ' '),
          line + std::string(longest_json_line - line.size() + 1, ' '), "longer than 64 KiB");
    check(line, line + std::string(10 * longest_json_line, ' '), "longer than 64 KiB");
    const auto id = [&](std::size_t length) { return R"({"id": ")" + std::string(length, 'x') + "\", " + told + "}"; };
    check(id(longest_line_id), id(longest_line_id + 1), "200 bytes");
    const auto words = [&](std::size_t length) { return R"({"words": ")" + std::string(length, 'x') + "\", " + told + "}"; };
    check(words(lidlift::longest_text), words(lidlift::longest_text + 1), "longer than 8 KiB");
    check(R"({"told": {"squeeze": {"is": ["stream"]}}})", R"({"told": {"squeeze": {"is": [["stream"]]}}})",
          "nested more than 4 deep");
    const auto list = [&](std::size_t items) {
        std::string text = R"({"told": {"squeeze": ["stream")";
        for (std::size_t i = 1; i < items; ++i) text += ",\"stream\"";
        return text + "]}}";
    };
    check(list(most_in_a_line), list(most_in_a_line + 1), "more than 1000 of one thing");
}

TEST_CASE("hostile lines end with a mistake, never a crash", "[cli][lines][hostile]") {
    const std::size_t most = 60'000;
    std::string opening;
    for (int i = 0; i < 10'000; ++i) opening += "{\"a\":";
    std::string keys = "{";
    for (int i = 0; i < 5'000; ++i) keys += "\"k" + std::to_string(i) + "\":1,";
    for (const std::string& hostile :
         {std::string(most, '['), std::string(most, '{'), opening, keys, std::string(most, '"'), std::string(most, '\\'),
          std::string("{\"told\": ") + std::string(most, '['), "{\"id\": " + std::string(most, '9') + "}",
          std::string("\0{}", 3), std::string("nul"), std::string("-"), std::string("\"\\u12"),
          std::string("{\"told\":{\"squeeze\":[[]]}}")}) {
        CAPTURE(hostile.substr(0, 20));
        const Run result = run_lines(hostile + "\n");
        CHECK(result.exit == 2);
        CHECK(lines_of(result.out).size() == 1);
        CHECK(is_tame(result.err));
    }
}

TEST_CASE("the memory is the same for a thousand lines and for fifty thousand", "[cli][lines][memory]") {
    if (keeps_freed_memory) return;
    const TemporaryFolder folder;
    std::string thousand;
    for (int i = 0; i < 1'000; ++i)
        thousand += R"({"told": {"squeeze": "stream"}})"
                    "\n";
    std::string more;
    for (int i = 0; i < 50; ++i) more += thousand;
    const long few = peak_of(folder.write("few.jsonl", thousand));
    const long many = peak_of(folder.write("many.jsonl", more));
    CAPTURE(few, many);
    CHECK(many < few + 8 * 1024);
}

TEST_CASE("an answer comes before the next line is written, and an interruption ends whole", "[cli][lines]") {
    const int signal = GENERATE(SIGINT, SIGTERM, SIGHUP);
    Beside program;
    program.say(R"({"id": 1, "told": {"squeeze": "stream"}})"
                "\n");
    CHECK(json::parse(program.hear())["id"] == 1);
    program.say(R"({"id": 2, "told": {"squeeze": "dry_crumbles"}})"
                "\n"
                R"({"id": 3, "to)");
    CHECK(json::parse(program.hear())["id"] == 2);
    CHECK(program.end_by(signal) == signal);
    CHECK(program.hear() == "it ended");
}

TEST_CASE("a pipe that nobody reads any more ends it quietly", "[cli][lines]") {
    const TemporaryFolder folder;
    const std::string file = folder.write("lines.jsonl", many_lines(2'000));
    const std::string command = "{ '" LIDLIFT_PROGRAM "' why --cases '" + file + "' --short 2>'" + folder.path("err") +
                                "'; echo $? >'" + folder.path("exit") + "'; } | head -n 1 >'" + folder.path("out") + "'";
    REQUIRE(std::system(command.c_str()) == 0);
    CHECK(lines_of(file_text(folder.path("out"))).size() == 1);
    CHECK(file_text(folder.path("exit")) == "3\n");
    CHECK_FALSE(holds(file_text(folder.path("err")), "cannot write"));
}

TEST_CASE("what cannot be read or written, and options that do not go together", "[cli][lines]") {
    const TemporaryFolder folder;
    const std::string file = folder.write("one.jsonl", R"({"told": {"squeeze": "stream"}})"
                                                       "\n");
    check_error(run({"why", "--cases", folder.path("none.jsonl")}), 3, "none.jsonl");
    check_error(run({"why", "--cases", folder.path()}), 3, "it is a folder");
    check_error(run({"why", "--cases", file}, {}, Stdout::full), 3, "cannot write to standard output");
    check_error(run({"why", "--cases", file, "squeeze=stream"}), 2, "--cases");
    check_error(run({"why", "--cases", file, "--steady"}), 2, "--cases");
    check_error(run({"why", "--short", "squeeze=stream"}), 2, "--cases FILE");
    check_error(run({"why", "--threads", "2", "squeeze=stream"}), 2, "--cases FILE");
    for (const std::string threads : {"0", "-1", "1025", "two", "2x", "99999999999999999999"})
        check_error(run({"why", "--cases", file, "--threads=" + threads}), 2, "from 1 to 1024");
    const Run most = run({"why", "--cases", file, "--short", "--threads", std::to_string(lidlift::cli::most_threads)});
    check_answer(most);
    CHECK(run({"why", "--cases", file, "--short"}).out == most.out);
}

}  // namespace cli_why_lines_test
