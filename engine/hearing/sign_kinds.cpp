#include "engine/hearing/sign_kinds.hpp"

#include "engine/hearing/sayings.hpp"

namespace lidlift::hearing {

bool is_trouble(const Sign& sign) {
    static const Sayings topics("smell|worms|moisture|heat|animals|mould|structure");
    return topics.has(sign.topic);
}

bool tells_a_beginning(const Sign& sign) { return sign.id == "trouble_started"; }

}  // namespace lidlift::hearing
