#include "engine/complaint.hpp"

#include "tests/catch.hpp"

namespace engine_complaint_test {

using namespace lidlift;

TEST_CASE("a place is written as far as it is known", "[complaint]") {
    CHECK(to_text(Place{"a.yaml", 3, 7}) == "a.yaml:3:7");
    CHECK(to_text(Place{"a.yaml", 3, 0}) == "a.yaml:3");
    CHECK(to_text(Place{"a.yaml", 0, 7}) == "a.yaml");
    CHECK(to_text(Place{}).empty());
}

TEST_CASE("a complaint is written in one line", "[complaint]") {
    CHECK(to_text(Complaint{{"a.yaml", 3, 7}, "no such sign", "did you mean 'smell'?"}) ==
          "a.yaml:3:7: no such sign (did you mean 'smell'?)");
    CHECK(to_text(Complaint{{"a.yaml", 3, 7}, "no such sign", ""}) == "a.yaml:3:7: no such sign");
    CHECK(to_text(Complaint{{}, "no such sign", ""}) == "no such sign");
}

TEST_CASE("complaints come sorted by place and each once", "[complaint]") {
    Complaints complaints;
    CHECK(complaints.empty());
    complaints.add({"b.yaml", 1, 1}, "late");
    complaints.add({"a.yaml", 10, 1}, "line 10");
    complaints.add({"a.yaml", 9, 2}, "line 9");
    complaints.add({"a.yaml", 9, 2}, "line 9");
    complaints.add({"a.yaml", 9, 2}, "line 9", "another hint");
    CHECK_FALSE(complaints.empty());
    const std::vector<Complaint> expected = {{{"a.yaml", 9, 2}, "line 9", ""},
                                             {{"a.yaml", 9, 2}, "line 9", "another hint"},
                                             {{"a.yaml", 10, 1}, "line 10", ""},
                                             {{"b.yaml", 1, 1}, "late", ""}};
    CHECK(complaints.sorted() == expected);
}

TEST_CASE("equal complaints are shown once even when others of their place came between", "[complaint]") {
    Complaints complaints;
    complaints.add({"a.yaml", 1, 1}, "first");
    complaints.add({"a.yaml", 1, 1}, "second");
    complaints.add({"a.yaml", 1, 1}, "first");
    CHECK(complaints.sorted().size() == 2);
}

TEST_CASE("as many complaints as the limit are shown, and those beyond are counted", "[complaint]") {
    Complaints complaints;
    for (int line = 1; line <= static_cast<int>(Complaints::limit); ++line) complaints.add({"a.yaml", line, 1}, "wrong");
    CHECK(complaints.sorted().size() == Complaints::limit);
    CHECK(complaints.sorted().back().text == "wrong");

    complaints.add({"a.yaml", 1000, 1}, "wrong");
    complaints.add({"a.yaml", 1001, 1}, "wrong");
    REQUIRE(complaints.sorted().size() == Complaints::limit + 1);
    CHECK(complaints.sorted().back() == Complaint{{}, "and 2 more mistakes", ""});
}

}  // namespace engine_complaint_test
