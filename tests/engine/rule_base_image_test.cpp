// The rule base inside the program is the one that stands in rules/*.yaml, and an image that was damaged is refused or at least
// does no harm.
#include "engine/rule_base_image.hpp"

#include "engine/rule_base_fields.hpp"
#include "rules/default_rules.hpp"
#include "tests/catch.hpp"
#include "tests/engine/random_models.hpp"
#include "tests/engine/short_rules.hpp"

#include <fstream>
#include <sstream>
#include <string>

namespace engine_rule_base_image_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

template <class Entry>
void check_same(const Catalogue<Entry>& embedded, const Catalogue<Entry>& read) {
    REQUIRE(embedded.size() == read.size());
    for (std::uint32_t i = 0; i < read.size(); ++i) {
        const Handle<Entry> handle{i};
        INFO(read[handle].id);
        CHECK(embedded[handle] == read[handle]);
        CHECK(embedded.find(read[handle].id) == handle);
    }
}

/// Visits every field of a rule base and empties the places among them.
struct ForgetPlaces {
    void operator()(auto&&... values) { (visit(values), ...); }

private:
    void visit(auto& value) {
        if constexpr (requires { each_field(value, *this); }) each_field(value, *this);
    }
    void visit(Place& place) { place = {}; }
    template <class T>
    void visit(std::optional<T>& value) {
        if (value) visit(*value);
    }
    template <class T>
    void visit(std::vector<T>& list) {
        for (T& value : list) visit(value);
    }
    template <class Entry>
    void visit(Catalogue<Entry>& catalogue) {
        for (std::uint32_t i = 0; i < catalogue.size(); ++i) visit(catalogue[Handle<Entry>{i}]);
    }
    template <class... T>
    void visit(std::variant<T...>& value) {
        std::visit([this](auto& held) { this->visit(held); }, value);
    }
};

/// A few entries of every kind, with every shape of condition and of amount.
RuleBase small_base() {
    std::ifstream file(LIDLIFT_TESTS_FOLDER "/review/good_amount_against_push.yaml");
    std::ostringstream text;
    text << file.rdbuf();
    const std::string more = Rules()
                                 .sign("lid", "seen anyway: sometimes")
                                 .sign("moss", "seen anyway: sometimes")
                                 .conclusion("closed")
                                 .rule("closing", "not (lid and moss) or at least 1 of (lid is known, moss)", "closed")
                                 .step("lift", "never when: lid, check first: Look at it")
                                 .clash("both", "between: [lift, water], find out: lid")
                                 .text();
    return base_of({{"amounts.yaml", text.str()}, {"more.yaml", more}});
}

/// A condition that is `depth` conditions deep.
Condition nested(int depth) {
    Condition condition;
    for (int i = 1; i < depth; ++i) condition = Condition{Negation{{std::move(condition)}}};
    return condition;
}

RuleBase with_nested_rule(int depth) {
    RuleBase base = small_base();
    base.rules[*base.rules.find("closing")].when = nested(depth);
    return base;
}

}  // namespace

TEST_CASE("the embedded rule base is the one in the rule files, field by field", "[image]") {
    const Outcome<RuleBase> embedded = default_rule_base();
    REQUIRE(embedded);
    const RuleBase& read = default_base();
    check_same(embedded->sources, read.sources);
    check_same(embedded->signs, read.signs);
    check_same(embedded->conclusions, read.conclusions);
    check_same(embedded->rules, read.rules);
    check_same(embedded->causes, read.causes);
    check_same(embedded->steps, read.steps);
    check_same(embedded->cautions, read.cautions);
    check_same(embedded->clashes, read.clashes);
    check_same(embedded->materials, read.materials);
    CHECK(*embedded == read);
    CHECK(to_image(read) == default_rules_image());
}

TEST_CASE("a difference in any field is a difference", "[image]") {
    const RuleBase& read = default_base();
    RuleBase other = read;
    CHECK(other == read);
    const Handle<Cause> last{static_cast<std::uint32_t>(other.causes.size() - 1)};
    other.causes[last].place.column += 1;
    CHECK_FALSE(other == read);
    CHECK_FALSE(to_image(other) == to_image(read));
    const Outcome<RuleBase> again = from_image(to_image(other));
    REQUIRE(again);
    CHECK(*again == other);
}

TEST_CASE("an image gives back rule bases of any kind", "[image]") {
    const RuleBase small = small_base();
    const Outcome<RuleBase> small_again = from_image(to_image(small));
    REQUIRE(small_again);
    CHECK(*small_again == small);
    const Outcome<RuleBase> nothing = from_image(to_image(RuleBase{}));
    REQUIRE(nothing);
    CHECK(*nothing == RuleBase{});
}

TEST_CASE("without phrases and places all else of an image is the same", "[image]") {
    RuleBase whole = default_base();
    const Outcome<RuleBase> read = from_image(to_image(whole), Extent::without_phrases_and_places);
    REQUIRE(read);
    CHECK_FALSE(*read == whole);
    for (std::uint32_t i = 0; i < whole.signs.size(); ++i)
        for (Answer& answer : whole.signs[Handle<Sign>{i}].answers) {
            answer.heard_as.clear();
            answer.perhaps_heard_as.clear();
        }
    for (std::uint32_t i = 0; i < whole.materials.size(); ++i) whole.materials[Handle<Material>{i}].heard_as.clear();
    ForgetPlaces forget;
    each_field(whole, forget);
    CHECK(*read == whole);
}

TEST_CASE("conditions in an image are as deep as the limit and no deeper", "[image]") {
    const RuleBase deepest = with_nested_rule(deepest_in_image);
    const Outcome<RuleBase> read = from_image(to_image(deepest));
    REQUIRE(read);
    CHECK(*read == deepest);
    const Outcome<RuleBase> too_deep = from_image(to_image(with_nested_rule(deepest_in_image + 1)));
    REQUIRE_FALSE(too_deep);
    CHECK(too_deep.fault().text == "the image of the rule base is damaged: a condition is nested too deep");
}

TEST_CASE("an image of another format is refused", "[image]") {
    std::string image = to_image(small_base());
    for (const std::string& other : {std::string(), std::string("rules: {}\n"), "x" + image}) {
        const Outcome<RuleBase> read = from_image(other);
        REQUIRE_FALSE(read);
        CHECK(read.fault().text == "there is no image of a rule base in the format of this version");
    }
    ++image[image.find('\n') - 1];  // the next version
    CHECK_FALSE(from_image(image));
    CHECK_FALSE(from_image(with_true_sum(image)));
}

TEST_CASE("an image that was cut anywhere is refused, even with its sum put right", "[image]") {
    const std::string image = to_image(small_base());
    for (std::size_t size = 0; size < image.size(); ++size) {
        INFO(size);
        const std::string cut = image.substr(0, size);
        CHECK_FALSE(from_image(cut));
        CHECK_FALSE(from_image(with_true_sum(cut)));
    }
    CHECK_FALSE(from_image(image + '\0'));
    CHECK_FALSE(from_image(with_true_sum(image + '\0')));
}

TEST_CASE("an image with one byte changed is refused", "[image]") {
    const std::string image = to_image(small_base());
    for (std::size_t i = 0; i < image.size(); ++i) {
        INFO(i);
        std::string changed = image;
        changed[i] = static_cast<char>(changed[i] ^ 1 << i % 8);
        CHECK_FALSE(from_image(changed));
    }
}

TEST_CASE("an image with bytes changed and its sum put right does no harm", "[image]") {
    const std::string image = to_image(small_base());
    Dice dice(5);
    int refused = 0;
    for (int i = 0; i < 20'000; ++i) {
        std::string changed = image;
        for (int times = 1 + i % 3; times > 0; --times)
            changed[dice.whole(0, static_cast<std::uint32_t>(image.size()) - 1)] = static_cast<char>(dice.whole(0, 255));
        const Outcome<RuleBase> read = from_image(with_true_sum(changed));
        // Whatever was read is a rule base that can be held in an image.
        if (read)
            CHECK(to_image(*read).size() > 0);
        else
            ++refused;
    }
    CHECK(refused > 1'000);
}

}  // namespace engine_rule_base_image_test
