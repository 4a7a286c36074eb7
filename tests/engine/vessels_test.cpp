#include "engine/vessels.hpp"

#include "tests/catch.hpp"

#include <string>

namespace engine_vessels_test {

using namespace lidlift;

namespace {

Vessels ours() {
    Vessels vessels;
    vessels.state({"bucket", 10});
    vessels.state({"barrow", 80});
    return vessels;
}

/// "30 L", "12 kg", or what is wrong.
std::string read(std::string_view text, const Vessels& vessels = ours()) {
    const auto amount = read_amount(text, vessels);
    if (!amount) return amount.fault().text;
    return number_to_text(amount->size) + (amount->by == Amount::By::mass ? " kg" : " L");
}

std::string size_of(std::string_view name, std::string_view size) {
    const auto vessel = read_vessel(name, size);
    return vessel ? vessel->name + " " + number_to_text(vessel->litres) : vessel.fault().text;
}

const std::string wanted = "an amount is a mass (12 kg), a volume (30 L) or a measure (3 buckets of 10 L)";

}  // namespace

TEST_CASE("amounts by mass and by volume are read in the trade's units", "[vessels]") {
    CHECK(read("12 kg") == "12 kg");
    CHECK(read("12kg") == "12 kg");
    CHECK(read("500 g") == "0.5 kg");
    CHECK(read("2.5 lb") == "1.13398 kg");
    CHECK(read("0.2 t") == "200 kg");
    CHECK(read("30 L") == "30 L");
    CHECK(read("1.5 m3") == "1500 L");
    CHECK(read("2 gal_us") == "7.57082 L");
    CHECK(read("2 gal_imp") == "9.09218 L");
    CHECK(read("half a kilo") == "0.5 kg");
    CHECK(read("0 kg") == "0 kg");
}

TEST_CASE("measures count with their stated size", "[vessels]") {
    CHECK(read("3 buckets") == "30 L");
    CHECK(read("1 bucket") == "10 L");
    CHECK(read("a bucket") == "10 L");
    CHECK(read("half a bucket") == "5 L");
    CHECK(read("Two Buckets") == "20 L");
    CHECK(read("2.5 barrows") == "200 L");
    CHECK(read("3 wheelbarrows") == "240 L");
    CHECK(read("1 pail") == "10 L");
    CHECK(read("2 buckets of 12 L") == "24 L");
    CHECK(read("1 barrow of 80 L", {}) == "80 L");
    CHECK(read("two crates of 1.5 ft3", {}) == "84.9505 L");
    CHECK(read("2 sacks of 15 kg", {}) == "30 kg");
    CHECK(read_amount("3 buckets", ours())->written == "3 buckets");
}

TEST_CASE("a measure of unknown size is refused, and told how to state it", "[vessels]") {
    CHECK(read("3 buckets", {}) == "nobody stated how much a bucket holds: write '3 buckets of 10 L' with its size");
    CHECK(read("half a sack") == "nobody stated how much a sack holds: write 'half a sack of 10 L' with its size");
    CHECK(read("3 bukcets") == "'bukcets' is no unit and no measure; did you mean 'buckets'?; " + wanted);
    CHECK(read("3 bananas") == "'bananas' is no unit and no measure; " + wanted);
}

TEST_CASE("what is no amount is refused", "[vessels]") {
    CHECK(read("") == "an amount is missing: " + wanted);
    CHECK(read("12") == "'12' has no unit: " + wanted);
    CHECK(read("3 m2") == "'3 m2' is neither a mass nor a volume: " + wanted);
    CHECK(read("30 %") == "'30 %' is neither a mass nor a volume: " + wanted);
    CHECK(read("-3 kg") == "'-3 kg' is less than nothing");
    CHECK(read("3 gal") == "'gal' may be a US or an imperial gallon: write gal_us or gal_imp");
    CHECK(read("2 gallons") == "'gallons' may be a US or an imperial gallon: write gal_us or gal_imp");
    CHECK(read("3 kg of 10 L") == "'of 10 L' stands after a unit; a size is stated of a measure (3 buckets of 10 L)");
    CHECK(read("2 buckets of 10") == "how large is a bucket? '10' has no unit; write 10 L");
    CHECK(read("2 buckets of 10 m2") == "an area (m2) was given where a volume (L) is wanted");
    CHECK(read("2 buckets of 0 L") == "a bucket of 0 L cannot be: it holds more than nothing and at most 5000 L");
    CHECK(read("some leaves") == "'some leaves' does not begin with a number");
    CHECK(read("1e3 kg").starts_with("'1e3' is not a plain decimal number"));
    CHECK(read("two three buckets") == "'two three buckets' does not begin with a number");
    CHECK(read("kg") == "'kg' does not begin with a number");
    CHECK(read(" of 10 L").starts_with("'of 10 L' does not begin"));
}

TEST_CASE("amounts and measures have limits", "[vessels]") {
    CHECK(read("1000000 kg") == "1000000 kg");
    CHECK(read("1000001 kg").starts_with("'1000001 kg' is more than anybody can mean"));
    CHECK(read("1000 m3") == "1000000 L");
    CHECK(read("1001 m3").starts_with("'1001 m3' is more than anybody can mean"));
    CHECK(size_of("skip", "5000 L") == "skip 5000");
    CHECK(size_of("skip", "5001 L").starts_with("a skip of 5001 L cannot be"));
    CHECK(size_of(std::string(30, 'a'), "1 L") == std::string(30, 'a') + " 1");
    CHECK(size_of(std::string(31, 'a'), "1 L").find("cannot name a measure") != std::string::npos);
}

TEST_CASE("sizes of measures are read", "[vessels]") {
    CHECK(size_of("buckets", "10 L") == "bucket 10");
    CHECK(size_of("Bucket", "2 gal_imp") == "bucket 9.09218");
    CHECK(size_of("boxes", "40 L") == "box 40");
    CHECK(size_of("caddies", "5 L") == "caddy 5");
    CHECK(size_of("litre", "10 L") == "'litre' is a unit already; its size cannot be stated");
    CHECK(size_of("big bucket", "10 L").starts_with("'big bucket' cannot name a measure"));
    CHECK(size_of("bucket", "2 gal") == "'gal' may be a US or an imperial gallon: write gal_us or gal_imp");
    CHECK(size_of("bucket", "ten").starts_with("'ten' does not begin with a number"));
}

TEST_CASE("a size stated again counts anew", "[vessels]") {
    Vessels vessels = ours();
    vessels.state({"bucket", 12});
    vessels.state({"wheelbarrow", 90});
    CHECK(read("1 bucket", vessels) == "12 L");
    CHECK(read("1 barrow", vessels) == "80 L");
    CHECK(read("1 wheelbarrow", vessels) == "90 L");
    CHECK(vessels.all().size() == 3);
}

TEST_CASE("volumes are told in measures", "[vessels]") {
    const Vessel bucket{"bucket", 10};
    CHECK(in_vessels(30, bucket) == "3 buckets");
    CHECK(in_vessels(33, bucket) == "3.5 buckets");
    CHECK(in_vessels(9.9, bucket) == "0.99 buckets");
    CHECK(in_vessels(11, bucket) == "1 bucket");
    CHECK(in_vessels(4.2, bucket) == "0.42 buckets");
    CHECK(in_vessels(1234, bucket) == "123 buckets");
    CHECK(in_vessels(50, {"box", 25}) == "2 boxes");
}

}  // namespace engine_vessels_test
