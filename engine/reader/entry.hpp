// One map of a YAML file, read key by key; what is missing, misspelt or of the wrong shape becomes a complaint with its place.
#pragma once

#include "engine/complaint.hpp"
#include "engine/nearest_name.hpp"
#include "engine/yaml_tree.hpp"

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift::reader {

enum class Need { required, optional };

/// Ids are lower-case letters, digits and '_', begin with a letter, at most 64 characters; codes such as K01 may begin with a
/// capital.
[[nodiscard]] bool is_id(std::string_view text, bool capitals = false);

/// "yes" or "no" of a text node; anything else is a complaint and no value.
[[nodiscard]] std::optional<bool> read_yes_no(const YamlNode& node, Complaints& complaints);

/// Position of the node's text among `words`; otherwise a complaint that lists them and none.
[[nodiscard]] std::optional<std::size_t> read_word(const YamlNode& node, const std::vector<std::string>& words,
                                                   Complaints& complaints);

class Entry {
public:
    /// `what` names the entry in complaints: "the cause 'blocked_drain'".
    Entry(const YamlNode& node, std::string what, Complaints& complaints);
    Entry(const Entry&) = delete;
    Entry& operator=(const Entry&) = delete;

    /// The value of `key`, or null; asking makes the key known.
    const YamlNode* node(std::string_view key, Need need = Need::optional);
    std::string text(std::string_view key, Need need = Need::optional);
    bool yes_no(std::string_view key, bool otherwise = false);
    std::optional<std::size_t> word(std::string_view key, const std::vector<std::string>& words, Need need = Need::optional);
    std::optional<double> number(std::string_view key, Need need = Need::optional);
    /// The items of a list; a single text counts as a list of one.
    std::vector<const YamlNode*> list(std::string_view key, Need need = Need::optional);
    std::vector<std::string> texts(std::string_view key);

    /// Complains of every key that nobody asked for, with the nearest that somebody did. Call last.
    void finish();

    void complain(const Place& place, std::string text, std::string hint = {});
    [[nodiscard]] const Place& place() const { return node_.place; }
    [[nodiscard]] const std::string& what() const { return what_; }
    [[nodiscard]] Complaints& complaints() { return complaints_; }

private:
    const YamlNode& node_;
    std::string what_;
    Complaints& complaints_;
    std::vector<std::string> known_;
};

/// Complains unless `node` is a text; returns whether it is.
bool require_text(const YamlNode& node, std::string_view what, Complaints& complaints);

/// "did you mean 'x'?", of the names that `names()` makes; nothing once the complaints are full, since looking through
/// thousands of names for each of thousands of mistakes would take minutes.
template <class Names>
std::string nearest_of(const Complaints& complaints, std::string_view name, const Names& names) {
    return complaints.full() ? std::string{} : did_you_mean(name, names());
}

/// "a, b, c"; with "or" before the last.
[[nodiscard]] std::string listed(const std::vector<std::string>& words);

}  // namespace lidlift::reader
