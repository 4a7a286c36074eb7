#include "engine/review/clause_solver.hpp"

#include <algorithm>
#include <utility>

namespace lidlift::logic {
namespace {

constexpr double activity_decay = 0.95;
constexpr double activity_limit = 1e100;
constexpr std::uint64_t first_restart = 100;  ///< conflicts; grows by half each time

constexpr std::uint32_t variable_of(Literal literal) { return literal >> 1; }

}  // namespace

Literal ClauseSolver::new_literal() {
    const auto variable = static_cast<std::uint32_t>(variables());
    value_.insert(value_.end(), 2, Value::open);
    watches_.resize(watches_.size() + 2);
    because_.push_back(no_clause);
    level_.push_back(0);
    activity_.push_back(0);
    seen_.push_back(false);
    heap_place_.push_back(no_clause);
    put_back(variable);
    return variable << 1;
}

void ClauseSolver::add(std::vector<Literal> clause) {
    std::ranges::sort(clause);
    clause.erase(std::unique(clause.begin(), clause.end()), clause.end());
    for (std::size_t i = 1; i < clause.size(); ++i)
        if (clause[i] == negated(clause[i - 1])) return;  // holds anyway
    std::erase_if(clause, [&](Literal literal) { return value_[literal] == Value::no; });
    if (std::ranges::any_of(clause, [&](Literal literal) { return value_[literal] == Value::yes; })) return;
    if (clause.empty()) {
        impossible_ = true;
    } else if (clause.size() == 1) {
        assign(clause.front(), no_clause);
    } else {
        clauses_.push_back(std::move(clause));
        watch(static_cast<std::uint32_t>(clauses_.size() - 1));
    }
}

Decided ClauseSolver::solve(std::uint64_t& work) {
    if (impossible_) return Decided::unsatisfiable;
    std::uint64_t conflicts = 0;
    std::uint64_t restart_after = first_restart;
    for (;;) {
        const std::uint32_t conflict = propagate(work);
        if (conflict != no_clause && level_begins_.empty()) return Decided::unsatisfiable;
        if (work == 0) return Decided::given_up;
        if (conflict != no_clause) {
            learn(conflict);
            ++conflicts;
            continue;
        }
        if (conflicts >= restart_after) {
            conflicts = 0;
            restart_after += restart_after / 2;
            undo_to(0);
            continue;
        }
        const std::uint32_t variable = next_open();
        if (variable == no_clause) return Decided::satisfiable;
        level_begins_.push_back(trail_.size());
        // No before yes: what nobody needs stays unanswered, and the witness short.
        assign((variable << 1) | 1U, no_clause);
    }
}

void ClauseSolver::assign(Literal literal, std::uint32_t because) {
    value_[literal] = Value::yes;
    value_[negated(literal)] = Value::no;
    because_[variable_of(literal)] = because;
    level_[variable_of(literal)] = level_begins_.size();
    trail_.push_back(literal);
}

std::uint32_t ClauseSolver::propagate(std::uint64_t& work) {
    while (next_to_propagate_ < trail_.size()) {
        const Literal lost = negated(trail_[next_to_propagate_++]);
        std::vector<std::uint32_t>& watching = watches_[lost];
        std::size_t kept = 0;
        for (std::size_t i = 0; i < watching.size(); ++i) {
            const std::uint32_t index = watching[i];
            std::vector<Literal>& clause = clauses_[index];
            work -= std::min<std::uint64_t>(work, 1);
            if (clause[0] == lost) std::swap(clause[0], clause[1]);
            if (value_[clause[0]] == Value::yes) {
                watching[kept++] = index;
                continue;
            }
            const auto other =
                std::find_if(clause.begin() + 2, clause.end(), [&](Literal literal) { return value_[literal] != Value::no; });
            if (other != clause.end()) {
                std::swap(clause[1], *other);
                watches_[clause[1]].push_back(index);
                continue;
            }
            watching[kept++] = index;
            if (value_[clause[0]] == Value::no) {
                for (++i; i < watching.size(); ++i) watching[kept++] = watching[i];
                watching.resize(kept);
                return index;
            }
            assign(clause[0], index);
        }
        watching.resize(kept);
    }
    return no_clause;
}

/// Back from the conflict along the reasons to the one literal of this level on which all of it rests; its opposite follows.
void ClauseSolver::learn(std::uint32_t conflict) {
    std::vector<Literal> learnt = {0};
    std::size_t open = 0;
    std::size_t at = trail_.size();
    Literal pivot = 0;
    std::uint32_t reason = conflict;
    bool first = true;
    do {
        for (const Literal literal : clauses_[reason]) {
            if (!first && literal == pivot) continue;
            const std::uint32_t variable = variable_of(literal);
            if (seen_[variable] || level_[variable] == 0) continue;
            seen_[variable] = true;
            bump(variable);
            if (level_[variable] == level_begins_.size())
                ++open;
            else
                learnt.push_back(literal);
        }
        first = false;
        do --at;
        while (!seen_[variable_of(trail_[at])]);
        pivot = trail_[at];
        reason = because_[variable_of(pivot)];
        seen_[variable_of(pivot)] = false;
        --open;
    } while (open > 0);
    learnt[0] = negated(pivot);
    for (std::size_t i = 1; i < learnt.size(); ++i) seen_[variable_of(learnt[i])] = false;

    bump_by_ /= activity_decay;
    if (learnt.size() == 1) {
        undo_to(0);
        assign(learnt[0], no_clause);
        return;
    }
    const auto highest = std::max_element(learnt.begin() + 1, learnt.end(), [&](Literal a, Literal b) {
        return level_[variable_of(a)] < level_[variable_of(b)];
    });
    std::swap(learnt[1], *highest);
    undo_to(level_[variable_of(learnt[1])]);
    clauses_.push_back(std::move(learnt));
    const auto index = static_cast<std::uint32_t>(clauses_.size() - 1);
    watch(index);
    assign(clauses_.back()[0], index);
}

void ClauseSolver::undo_to(std::size_t level) {
    if (level_begins_.size() <= level) return;
    for (std::size_t i = level_begins_[level]; i < trail_.size(); ++i) {
        value_[trail_[i]] = value_[negated(trail_[i])] = Value::open;
        put_back(variable_of(trail_[i]));
    }
    trail_.resize(level_begins_[level]);
    level_begins_.resize(level);
    next_to_propagate_ = trail_.size();
}

void ClauseSolver::watch(std::uint32_t clause) {
    watches_[clauses_[clause][0]].push_back(clause);
    watches_[clauses_[clause][1]].push_back(clause);
}

void ClauseSolver::bump(std::uint32_t variable) {
    activity_[variable] += bump_by_;
    if (activity_[variable] > activity_limit) {
        for (double& activity : activity_) activity /= activity_limit;
        bump_by_ /= activity_limit;
    }
    if (heap_place_[variable] != no_clause) sift_up(heap_place_[variable]);
}

std::uint32_t ClauseSolver::next_open() {
    while (!heap_.empty()) {
        const std::uint32_t top = heap_.front();
        heap_place_[top] = no_clause;
        if (heap_.size() > 1) {
            heap_.front() = heap_.back();
            heap_place_[heap_.front()] = 0;
        }
        heap_.pop_back();
        if (!heap_.empty()) sift_down(0);
        if (value_[top << 1] == Value::open) return top;
    }
    return no_clause;
}

void ClauseSolver::put_back(std::uint32_t variable) {
    if (heap_place_[variable] != no_clause) return;
    heap_place_[variable] = static_cast<std::uint32_t>(heap_.size());
    heap_.push_back(variable);
    sift_up(heap_.size() - 1);
}

void ClauseSolver::sift_up(std::size_t at) {
    const std::uint32_t moving = heap_[at];
    while (at > 0) {
        const std::size_t parent = (at - 1) / 2;
        if (activity_[heap_[parent]] >= activity_[moving]) break;
        heap_[at] = heap_[parent];
        heap_place_[heap_[at]] = static_cast<std::uint32_t>(at);
        at = parent;
    }
    heap_[at] = moving;
    heap_place_[moving] = static_cast<std::uint32_t>(at);
}

void ClauseSolver::sift_down(std::size_t at) {
    const std::uint32_t moving = heap_[at];
    for (;;) {
        std::size_t child = 2 * at + 1;
        if (child >= heap_.size()) break;
        if (child + 1 < heap_.size() && activity_[heap_[child + 1]] > activity_[heap_[child]]) ++child;
        if (activity_[heap_[child]] <= activity_[moving]) break;
        heap_[at] = heap_[child];
        heap_place_[heap_[at]] = static_cast<std::uint32_t>(at);
        at = child;
    }
    heap_[at] = moving;
    heap_place_[moving] = static_cast<std::uint32_t>(at);
}

}  // namespace lidlift::logic
