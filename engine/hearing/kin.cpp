#include "engine/hearing/kin.hpp"

#include "engine/hearing/little_words.hpp"
#include "engine/hearing/stems.hpp"

#include <array>
#include <unordered_map>

namespace lidlift::hearing {
namespace {

/// Each line: words that may stand for one another in a phrase of two words or more. Spelled as caller_text spells them. What
/// tells two answers apart (bugs and creatures, sour and foul, drip and trickle) must not stand in one line.
constexpr auto groups = std::to_array<std::string_view>({
    "is|was|be|been|being|become|becomes|became|becoming",
    "get|gets|got|getting|gotten",
    "look|looks|looking|looked",
    "feel|feels|felt",
    "in|inside|within|at|into",
    "on|onto|upon",
    "of|with|by",
    "have|has|had",
    "beneath|underneath|below|under",
    "bin|bins|bed|beds|box|boxes|tank|tanks|tub|tubs|wormery|wormeries|farm|tote|tower|composter|vermicomposter|container|"
    "barrel|crate|unit|"
    "system|setup|pit|pits",
    "worms|wigglers|wiggler|redworms|reds|brandlings|earthworms|earthworm|wormies|herd|nightcrawlers|crawlers|fellows|"
    "ones",
    "tiny|little|small|minute|teeny|wee|minuscule|titchy|miniature|smallish",
    "big|large|huge|giant|great|enormous|massive|whopping|gigantic",
    "food|foods|scraps|peelings|peels|peel|leftovers|feed",
    "lid|lids|cover",
    "covered|covering",
    "walls|wall|sides",
    "climb|climbs|climbing|climbed|crawl|crawls|crawling|crawled|creep|creeping|crept|clambering|slithering|wriggling|wriggled|"
    "scaling|"
    "trekking|marching",
    "escape|escapes|escaping|escaped|flee|fleeing|fled|abscond|absconding|absconded|bolting|bolted|bail|bailing|bailed",
    "soggy|sodden|sopping|drenched|saturated|waterlogged|squelchy|sloppy|swampy|soupy|sogged|soaked|soaking|swamped",
    "blocked|clogged|plugged|bunged|choked|obstructed|silted|blocking",
    "holes|hole|openings|opening|slots|slot|perforations",
    "next|other|second|neighbouring|adjacent|adjoining",
    "bay|bays|chamber|chambers|compartment|compartments|section",
    "cross|crosses|crossed|crossing",
    "smell|pong|pongs|whiff|whiffs|aroma|scent|niff",
    "stinks|reeks|stench|honk|honks|stinking|reeking|ponging",
    "awful|terrible|horrible|dreadful|disgusting|nasty|vile|revolting|ghastly|horrid|horrendous|atrocious|foul|rank|appalling|"
    "hideous|gross|"
    "unbearable|overpowering|bad|evil|offensive|unpleasant|obnoxious|sickening",
    "strong|sharp|pungent|powerful|intense|acrid|piercing",
    "dead|died|dying|perished|expired|dieing|deceased",
    "dry|dried|drying|dries|parched|arid|desiccated|dehydrated",
    "shrivelled|shrivelling|wizened|withered|wrinkled|crinkled",
    "hot|boiling|roasting|scorching|baking|sweltering|piping",
    "cold|chilly",
    "rain|rains|raining|rained|downpour|downpours|rainfall|rainwater",
    "heavy|torrential|constant|continuous|incessant|lashing",
    "put|putting|puts|add|added|adding|adds|throw|threw|thrown|throwing|throws|chuck|chucked|chucking|pop|popped|shove|shoved|"
    "bung",
    "give|gave|given|giving|gives",
    "eat|eats|eating|eaten|ate|consume|consuming|consumed|devour|devouring|devoured|gobble|gobbling",
    "see|sees|saw|seen|seeing|spot|spotted|notice|noticed|find|found|finding|discover|discovered|spy",
    "neighbours|neighbour|tenants|tenant|residents|resident|villagers|public|locals|folk|householders|members|people|guests|"
    "visitors|"
    "occupants|neighbor",
    "complain|complains|complained|complaining|complaint|complaints|moan|moans|moaned|moaning|grumble|grumbling|grumbled|"
    "whinge|objecting|"
    "objected|protest|protesting|unhappy",
    "full|alive|infested|heaving|teeming|overrun|swarming|riddled|smothered|plagued|inundated|hopping|seething",
    "liquid|liquids|fluid|fluids|water|runoff",
    "standing|stands|stand|stood|sitting|sits|sit|sat|lying|lies|lie|pooling|pools|pooled|collecting|collects|gathering|"
    "ponding",
    "puddle|puddles|pool",
    "heap|heaps|pile|piles|windrow|windrows|mound",
    "moved|shifted|relocated|transferred",
    "holiday|holidays|vacation|hols|trip",
    "mud|mush|sludge|slop|gunk|goo|porridge|pudding|batter|custard|paste|mire",
    "cardboard|paper|newspaper|newsprint|newspapers",
    "browns|brown",
    "chickens|chicken|hens|hen|poultry|fowl|ducks|chooks",
    "dung|manure|muck|poo|poop|droppings|dropping",
    "cow|cows|cattle|buffalo|bullock|buffaloes",
    "horse|horses|pony|ponies",
    "goat|goats|sheep",
    "stopped|quit|ceased|stop|stops",
    "chop|chopped|chopping|cut|cuts|shred|shredded|mince|minced|blend|blended",
    "turn|turning|stir|stirred|stirring|aerate|aerated|forked",
    "gnaw|gnawed|gnawing|gnaws|chew|chewed|chewing|chews|nibble|nibbled|nibbling",
    "husband|wife|son|daughter|brother|sister|mother|father|mum|dad|colleague|gardener|helper|worker|boy|girl|lad|bloke|chap|"
    "guy|man|woman|"
    "caretaker|labourer|he|she|someone|somebody|friend",
    "plants|plant|seedlings|tomatoes|crops|peppers|beans|houseplants|basil|okra|paddy|lettuce|lettuces|roses|rose|flowers|"
    "chillies|cucumbers|"
    "courgettes|spinach|cabbages|marigolds|geraniums|herbs",
    "leaves|leaf|leafs|foliage",
    "pale|milky|whitish|washed|pasty|colourless|bleached",
    "sluggish|lethargic|listless|lifeless|limp|slow|lazy|torpid|sleepy",
    "babies|baby|young|youngsters|hatchlings|juveniles",
    "cocoons|cocoon|eggs|egg|capsules",
    "ball|balls|knot|knots|clump|clumps|tangle|lump|bundle|cluster",
    "thick|dense|deep",
    "roof|canopy|awning",
    "sun|sunshine|sunlight",
    "pipe|outlet|drain|outflow|spout|drainpipe|tap|spigot|drains",
    "tray|trays|sump",
    "pieces|bits|lumps|chunks|fragments|shards",
    "mouldy|furry|fuzzy|hairy",
    "quickly|fast|rapidly",
    "loose|crumbly|fluffy|friable",
    "hard|solid|firm|rock",
    "double|twice|extra",
    "grass|lawn",
    "clippings|cuttings|mowings",
    "shade|shaded|shady|shadow",
    "nothing|none|nowt",
    // Each by itself: two months are not two weeks, and a week is not weeks.
    "weeks|fortnights",
    "months|ages",
    "keep|keeps|kept|keeping",
    "begin|began|begun|beginning|started|start|starts|starting",
    "sell|selling|sold|market|marketing|retail",
    "doctor|vet",
    "spray|sprayed|spraying|sprays|treated",
    "corner|end|edge|side",
    "compacted|squashed|compressed|packed",
});

const std::unordered_map<std::string_view, std::string_view>& first_of_group() {
    static const auto result = [] {
        std::unordered_map<std::string_view, std::string_view> all;
        for (const std::string_view group : groups) {
            const std::string_view first = group.substr(0, group.find('|'));
            for (std::size_t begin = 0; begin < group.size();) {
                const std::size_t end = std::min(group.find('|', begin), group.size());
                all.emplace(group.substr(begin, end - begin), first);
                begin = end + 1;
            }
        }
        return all;
    }();
    return result;
}

}  // namespace

bool joins(std::string_view word) {
    static const Sayings words(
        "is|was|be|been|get|gets|got|getting|look|looks|looking|looked|feel|feels|felt|gone|went|turned|turning|become|becomes|"
        "became|stay|"
        "stays|stayed|smell");
    return words.has(word);
}

std::string kin_of(std::string_view word) {
    if (const auto found = first_of_group().find(word); found != first_of_group().end()) return std::string(found->second);
    return stem_of(word);
}

bool has_synonyms(std::string_view word) { return first_of_group().contains(word); }

bool may_be_left_out(std::string_view word) {
    static const Sayings words(
        "a|an|my|our|your|his|her|their|this|that|these|those|there|of|is|was|be|been|being|do|does|did");
    return words.has(word);
}

bool may_stand_between(std::string_view word) {
    static const Sayings words(
        "get|gets|got|getting|gotten|look|looks|looking|looked|gone|went|go|going|turned|become|becomes|became|becoming|stays|"
        "stayed|comes|"
        "came|coming|feel|feels|felt|up|over|along|around|have|has|had|round|down|out|right|about|"
        "lovely|"
        "poor|good|well|nice|bloody|damn|dear|old|keep|keeps|kept|any|ever|each|every|lately|recently|somehow|them");
    return may_be_left_out(word) || words.has(word) || english().strengtheners.has(word);
}

}  // namespace lidlift::hearing
