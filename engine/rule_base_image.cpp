#include "engine/rule_base_image.hpp"

#include "engine/condition_grammar.hpp"
#include "engine/rule_base_fields.hpp"

#include <algorithm>
#include <bit>
#include <cstdint>
#include <cstring>
#include <limits>
#include <optional>
#include <tuple>
#include <utility>
#include <vector>

namespace lidlift {
namespace {

constexpr std::string_view format = "lidlift rule base, image 1\n";
constexpr std::size_t sum_size = 8;

static_assert(deepest_in_image >= 4 * deepest_condition);

std::uint64_t eight_bytes(std::string_view bytes) {
    std::uint64_t number = 0;
    if constexpr (std::endian::native == std::endian::little)
        std::memcpy(&number, bytes.data(), sizeof number);
    else
        for (std::size_t i = 0; i < 8; ++i) number |= std::uint64_t{static_cast<unsigned char>(bytes[i])} << (8 * i);
    return number;
}

void append_eight_bytes(std::string& bytes, std::uint64_t number) {
    for (int i = 0; i < 8; ++i) bytes += static_cast<char>(number >> (8 * i) & 0xff);
}

/// FNV-1a (Fowler, Noll, Vo) over words of eight bytes, in four lanes that a processor works on side by side. It finds
/// accidents; it keeps nobody out.
std::uint64_t sum_of(std::string_view bytes) {
    constexpr std::uint64_t prime = 0x100000001b3;
    std::uint64_t lanes[] = {0xcbf29ce484222325, 1, 2, 3};
    const auto mix = [](std::uint64_t& lane, std::uint64_t word) { lane = std::rotl((lane ^ word) * prime, 29); };
    std::uint64_t length = bytes.size();
    for (; bytes.size() >= 32; bytes.remove_prefix(32)) {
        mix(lanes[0], eight_bytes(bytes));
        mix(lanes[1], eight_bytes(bytes.substr(8)));
        mix(lanes[2], eight_bytes(bytes.substr(16)));
        mix(lanes[3], eight_bytes(bytes.substr(24)));
    }
    for (const char byte : bytes) mix(lanes[0], static_cast<unsigned char>(byte));
    for (const std::uint64_t lane : {lanes[1], lanes[2], lanes[3], length}) mix(lanes[0], lane);
    return lanes[0] ^ lanes[0] >> 32;
}

/// The number of entries of one kind.
template <class Entry>
struct Size {
    std::size_t count = 0;
};

/// How many entries of each kind there are, in the order in which an image begins with them.
class Sizes {
public:
    Sizes() = default;
    explicit Sizes(const RuleBase& base) {
        const auto count = [this]<class Entry>(const Catalogue<Entry>& catalogue) { of<Entry>() = catalogue.size(); };
        count(base.sources);
        count(base.signs);
        count(base.conclusions);
        count(base.rules);
        count(base.causes);
        count(base.steps);
        count(base.cautions);
        count(base.clashes);
        count(base.materials);
    }
    template <class Entry>
    [[nodiscard]] std::size_t& of() {
        return std::get<Size<Entry>>(sizes_).count;
    }
    void for_each(auto&& visit) {
        std::apply([&](auto&... size) { (visit(size.count), ...); }, sizes_);
    }

private:
    std::tuple<Size<Source>, Size<Sign>, Size<Conclusion>, Size<Rule>, Size<Cause>, Size<Step>, Size<Caution>, Size<Clash>,
               Size<Material>>
        sizes_;
};

class ImageWriter {
public:
    std::string write(const RuleBase& base) {
        each_field(base, *this);
        const std::string fields = std::exchange(bytes_, {});
        Sizes(base).for_each([this](std::size_t count) { add(count); });
        add(files_);
        return bytes_ + fields;
    }

    void operator()(const auto&... values) { (add(values), ...); }

private:
    void add(std::uint64_t number) {
        for (; number >= 0x80; number >>= 7) bytes_ += static_cast<char>(number | 0x80);
        bytes_ += static_cast<char>(number);
    }
    void add(int number) { add(static_cast<std::uint64_t>(number)); }
    void add(bool value) { bytes_ += value ? '\1' : '\0'; }
    void add(double number) { append_eight_bytes(bytes_, std::bit_cast<std::uint64_t>(number)); }
    void add(const std::string& text) {
        add(text.size());
        bytes_ += text;
    }
    void add(const Place& place) {
        const auto known = std::ranges::find(files_, place.file);
        add(static_cast<std::size_t>(known - files_.begin()));
        if (known == files_.end()) files_.push_back(place.file);
        (*this)(place.line, place.column);
    }
    void add(const Unit* unit) { add(unit ? std::optional<std::string>(unit->name) : std::nullopt); }
    template <class Enum>
    requires std::is_enum_v<Enum>
    void add(Enum value) { add(static_cast<int>(value)); }
    template <class Entry>
    void add(Handle<Entry> handle) {
        add(std::uint64_t{handle.index});
    }
    template <class T>
    void add(const std::optional<T>& value) {
        add(value.has_value());
        if (value) add(*value);
    }
    template <class T>
    void add(const std::vector<T>& list) {
        add(list.size());
        for (const T& value : list) add(value);
    }
    void add(const Phrases<const std::vector<std::string>>& phrases) { add(phrases.list); }
    template <class Entry>
    void add(const Catalogue<Entry>& catalogue) {
        for (const Entry& entry : catalogue) add(entry);
    }
    template <class... T>
    void add(const std::variant<T...>& value) {
        add(value.index());
        std::visit([this](const auto& held) { this->add(held); }, value);
    }
    template <class Struct>
    requires requires(const Struct& value, ImageWriter& writer) { each_field(value, writer); }
    void add(const Struct& value) { each_field(value, *this); }

    std::string bytes_;
    std::vector<std::string> files_;
};

/// Reads what ImageWriter writes. After the first fault nothing more is read, and all that is asked for is nothing.
class ImageReader {
public:
    ImageReader(std::string_view bytes, Extent extent) : rest_(bytes), whole_(extent == Extent::whole) {}

    Outcome<RuleBase> read() {
        RuleBase base;
        sizes_.for_each([this](std::size_t& count) { count = length(); });
        take(files_);
        each_field(base, *this);
        if (!rest_.empty()) fail("something stands after its end");
        if (base.rules_for.size() != base.conclusions.size()) fail("its conclusions and their rules differ in number");
        if (fault_) return *fault_;
        return Outcome<RuleBase>(std::move(base));
    }

    void operator()(auto&&... values) { (take(values), ...); }

private:
    void fail(const char* why) {
        if (!fault_) fault_ = Fault{std::string("the image of the rule base is damaged: ") + why};
        rest_ = {};
    }
    /// The next bytes; nothing, where there are fewer.
    std::string_view bytes(std::size_t count) {
        if (count > rest_.size()) fail("it ends too early");
        const std::string_view result = rest_.substr(0, count);
        rest_.remove_prefix(result.size());
        return result;
    }
    std::uint64_t number() {
        std::uint64_t result = 0;
        for (int shift = 0; shift < 64; shift += 7) {
            if (rest_.empty()) break;
            const auto byte = static_cast<unsigned char>(rest_.front());
            rest_.remove_prefix(1);
            result |= std::uint64_t{byte & 0x7fU} << shift;
            if (byte < 0x80) return result;
        }
        fail("a number does not end");
        return 0;
    }
    std::uint64_t number_up_to(std::uint64_t most) {
        const std::uint64_t result = number();
        if (result <= most) return result;
        fail("a number is too great");
        return 0;
    }
    /// Of a list or a text: no more than there are bytes left, since each item takes one at least.
    std::size_t length() { return number_up_to(rest_.size()); }

    void take(std::uint64_t& value) { value = number(); }
    void take(int& value) { value = static_cast<int>(number_up_to(std::numeric_limits<int>::max())); }
    void take(bool& value) { value = number_up_to(1) != 0; }
    void take(double& value) {
        if (const std::string_view eight = bytes(8); !eight.empty()) value = std::bit_cast<double>(eight_bytes(eight));
    }
    void take(std::string& text) { text = bytes(length()); }
    void take(Place& place) {
        const std::uint64_t file = number();
        if (file >= files_.size()) fail("a place is in no file");
        (*this)(place.line, place.column);
        if (!whole_)
            place = {};
        else if (!fault_)
            place.file = files_[file];
    }
    void take(const Unit*& unit) {
        std::optional<std::string> name;
        take(name);
        unit = name ? unit_printed_as(*name) : nullptr;
        if (name && !unit) fail("a unit is not known");
    }
    template <class Enum>
    requires std::is_enum_v<Enum>
    void take(Enum& value) { value = static_cast<Enum>(number_up_to(static_cast<std::uint64_t>(last_of<Enum>))); }
    template <class Entry>
    void take(Handle<Entry>& handle) {
        const std::uint64_t index = number();
        if (index < sizes_.of<Entry>())
            handle.index = static_cast<std::uint32_t>(index);
        else
            fail("an entry is named that is not there");
    }
    template <class T>
    void take(std::optional<T>& value) {
        bool is_there = false;
        take(is_there);
        if (is_there) take(value.emplace());
    }
    template <class T>
    void take(std::vector<T>& list) {
        const std::size_t count = length();
        list.reserve(std::min(count, most_at_once));
        for (std::size_t i = 0; i < count && !fault_; ++i) take(list.emplace_back());
    }
    void take(Phrases<std::vector<std::string>>& phrases) {
        if (whole_) return take(phrases.list);
        for (std::size_t count = length(); count > 0; --count) bytes(length());
    }
    template <class Entry>
    void take(Catalogue<Entry>& catalogue) {
        const std::size_t count = sizes_.of<Entry>();
        catalogue.expect(std::min(count, most_at_once));
        for (std::size_t i = 0; i < count && !fault_; ++i) {
            Entry entry;
            take(entry);
            if (catalogue.find(entry.id)) fail("two entries have one name");
            if (!fault_) catalogue.add(std::move(entry));
        }
    }
    template <class... T>
    void take(std::variant<T...>& value) {
        const std::uint64_t wanted = number_up_to(sizeof...(T) - 1);
        std::uint64_t position = 0;
        ((position++ == wanted ? take(value.template emplace<T>()) : void()), ...);
    }
    void take(Condition& condition) {
        if (++depth_ > deepest_in_image)
            fail("a condition is nested too deep");
        else
            each_field(condition, *this);
        --depth_;
    }
    template <class Struct>
    requires requires(Struct& value, ImageReader& reader) { each_field(value, reader); }
    void take(Struct& value) { each_field(value, *this); }

    /// Room made at once for a list, which may be said to be longer than it is.
    static constexpr std::size_t most_at_once = 1024;

    std::string_view rest_;
    bool whole_;
    Sizes sizes_;
    std::vector<std::string> files_;
    int depth_ = 0;
    std::optional<Fault> fault_;
};

}  // namespace

std::string to_image(const RuleBase& rule_base) {
    const std::string fields = ImageWriter().write(rule_base);
    std::string image(format);
    append_eight_bytes(image, sum_of(fields));
    return image + fields;
}

Outcome<RuleBase> from_image(std::string_view image, Extent extent) {
    if (!image.starts_with(format) || image.size() < format.size() + sum_size)
        return Fault{"there is no image of a rule base in the format of this version"};
    image.remove_prefix(format.size());
    const std::uint64_t sum = eight_bytes(image);
    image.remove_prefix(sum_size);
    if (sum != sum_of(image)) return Fault{"the image of the rule base is damaged: its sum differs"};
    return ImageReader(image, extent).read();
}

std::string with_true_sum(std::string image) {
    const std::size_t begin = format.size() + sum_size;
    if (image.size() < begin) return image;
    std::string sum;
    append_eight_bytes(sum, sum_of(std::string_view(image).substr(begin)));
    return image.replace(format.size(), sum_size, sum);
}

}  // namespace lidlift
