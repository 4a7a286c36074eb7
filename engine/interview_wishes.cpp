// What a person wishes instead of answering: to go back, to know why, to hear it again, to stop.
#include "engine/call/danger_reply.hpp"
#include "engine/interview.hpp"

#include <algorithm>

namespace lidlift {
namespace {

using What = Wish::What;

}  // namespace

void Interview::hear_wish(const Wish& wish, Moment now, std::vector<Shown>& out) {
    switch (wish.what) {
        case What::dont_know:
            hear_dont_know(now, out);
            return;
        case What::why:
            explain(out);
            break;
        case What::so_far:
            weigh_again();
            out.emplace_back(shown::SoFar{});
            break;
        case What::back:
            go_back(now, out);
            return;
        case What::change:
            change(wish.number, out);
            return;
        case What::list:
            out.emplace_back(shown::AnswersSoFar{call_.lines()});
            break;
        case What::repeat:
            break;
        case What::stop:
            if (waiting_ == Waiting::follow_up) {
                pause(out);
                return;
            }
            weigh_again();
            if (waiting_ == Waiting::dangers) out.emplace_back(shown::DangersNotKnown{flags_});
            finish(StopReason::said_to_stop, now, out);
            return;
        case What::pause:
            pause(out);
            return;
        case What::help:
            out.emplace_back(shown::Help{});
            break;
    }
    ask_again(out);
}

void Interview::hear_dont_know(Moment now, std::vector<Shown>& out) {
    if (waiting_ == Waiting::own_words || waiting_ == Waiting::news) {
        hear_own_words("", now, out);
    } else if (waiting_ == Waiting::dangers) {
        (void)call_.add(dangers_not_known(rule_base(), flags_, now));
        out.emplace_back(shown::DangersNotKnown{flags_});
        go_on(now, out);
    } else if (asking()) {
        const std::string& id = rule_base().signs[*pending_].id;
        const auto kind = waiting_ == Waiting::changed_answer ? CallEntry::Kind::changed : CallEntry::Kind::asked;
        call_.take({.kind = kind, .when = now, .words = "don't know", .sign = id, .heard = {{id, "?", Sureness::sure, {}}}}, {},
                   out);
        go_on(now, out);
    } else if (waiting_ == Waiting::follow_up) {
        hear_follow_up("don't know", now, out);
    } else {
        ask_again(out);
    }
}

void Interview::explain(std::vector<Shown>& out) const {
    if (asking()) {
        // As if the sign were not answered yet.
        Told without = told();
        forget(without, *pending_);
        out.emplace_back(
            shown::WhyAsked{*pending_, what_if(ranker_, without, ranker_.rank_in_brief(without.facts), *pending_)});
    } else if (waiting_ == Waiting::dangers) {
        out.emplace_back(shown::WhyDangers{flags_});
    } else {
        out.emplace_back(shown::Help{});
    }
}

void Interview::go_back(Moment now, std::vector<Shown>& out) {
    if (waiting_ == Waiting::changed_answer) {
        out.emplace_back(shown::WentBack{});
        go_on(now, out);
        return;
    }
    const CallEntry* before = call_.last();
    if (waiting_ == Waiting::follow_up || !before || !is_exchange(*before)) {
        out.emplace_back(shown::NothingBefore{});
        ask_again(out);
        return;
    }
    const CallEntry last = *before;
    (void)call_.add({.kind = CallEntry::Kind::back, .when = now});
    weigh_again();
    out.emplace_back(shown::WentBack{});
    const auto sign = rule_base().signs.find(last.sign);
    if (last.kind == CallEntry::Kind::asked && sign)
        ask(*sign, false, out);
    else if (last.kind == CallEntry::Kind::words || last.kind == CallEntry::Kind::news)
        ask_own_words(last.kind == CallEntry::Kind::news, out);
    else
        go_on(now, out);
}

void Interview::change(std::optional<std::size_t> number, std::vector<Shown>& out) {
    const auto& order = told().order;
    if (waiting_ == Waiting::follow_up) {
        ask_again(out);
    } else if (!number) {
        out.emplace_back(shown::AnswersSoFar{call_.lines()});
        ask_again(out);
    } else if (*number < 1 || *number > order.size()) {
        out.emplace_back(shown::NoSuchAnswer{order.size()});
        ask_again(out);
    } else {
        ask(order[*number - 1], true, out);
    }
}

}  // namespace lidlift
