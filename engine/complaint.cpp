#include "engine/complaint.hpp"

#include <algorithm>
#include <utility>

namespace lidlift {

std::string to_text(const Place& place) {
    std::string text = place.file;
    if (place.line > 0) text += ":" + std::to_string(place.line);
    if (place.line > 0 && place.column > 0) text += ":" + std::to_string(place.column);
    return text;
}

std::string to_text(const Complaint& complaint) {
    std::string text = to_text(complaint.place);
    if (!text.empty()) text += ": ";
    text += complaint.text;
    if (!complaint.hint.empty()) text += " (" + complaint.hint + ")";
    return text;
}

void Complaints::add(Place place, std::string text, std::string hint, std::string kind) {
    if (list_.size() < limit)
        list_.push_back({std::move(place), std::move(text), std::move(hint), std::move(kind)});
    else
        ++beyond_limit_;
}

std::vector<Complaint> Complaints::sorted() const {
    std::vector<Complaint> result;
    for (const Complaint& complaint : list_)
        if (std::ranges::find(result, complaint) == result.end()) result.push_back(complaint);
    std::ranges::stable_sort(result, {}, &Complaint::place);
    if (beyond_limit_ > 0) result.push_back({{}, "and " + std::to_string(beyond_limit_) + " more mistakes", {}});
    return result;
}

}  // namespace lidlift
