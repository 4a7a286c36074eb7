#include "engine/hearing/little_words.hpp"

namespace lidlift::hearing {

const LittleWords& english() {
    static const LittleWords words{
        .negators = Sayings("no|not|never|without|none|nor|neither|nothing|nobody"),
        .denies_existence = Sayings("no|without|never|any|nor|neither|none|zero"),
        .not_negating =
            Sayings("not understand|not describe|not believe|not explain|not figure out|not work out|not only|not just|no "
                    "doubt|no wonder|no idea|no problem|no problems|no matter|no clue|no question|not "
                    "sure|not certain|no good|"
                    "no luck|no help|no use"),
        .unclear_before = Sayings(
            "hardly|barely|no problem with|no problems with|no trouble with|no issue with|no issues with|any problem with|any "
            "problems with|any trouble with|any issues with|without problems with|scarcely|nothing but|none of|not "
            "all|not every|not always|not sure|not know|not certain|no idea|no clue|"
            "except|apart from|other than|rather than|instead of|besides|less|fewer|no more|either|neither|against|prevent|"
            "prevents|preventing|deter|deters|avoid|afraid of|scared of|frightened of|terrified of|dread|worried that|worry "
            "that|fear that|warn of|warns of|warn about|warned about|warned of|warned me|warned us|warns me|told me about|told "
            "us about|beware of|look out for|in case of|fear|fear "
            "of|worried about|worry about|risk of|than|as "
            "if|"
            "as though|nearly|almost|borderline|only when|stop|stops|stopped adding|stopped putting|stopped "
            "giving|avoided|avoiding|"
            "keep out|kept out|keeps out|rid of|killed|not mind|not "
            "care|"
            "not want|not like|not help|not stop|not stand|not get"),
        .between_negator_and_phrase = Sayings(
            "any|a|an|really|that|see|seen|find|found|smell|smelled|smelt|have|had|has|got|get|be|been|is|was|it|there|to|of|"
            "add|"
            "added|adding|put|putting|give|given|giving|gave|feed|fed|feeding|use|used|using|sign|signs|at|all|actually|"
            "particularly|especially|even|notice|noticed|spotted|spot|look|looks|feel|feels|so|do|did|does|in|visible|obvious|"
            "yet|"
            "ever|i|we|they|on|with|more|think|trace|like"),
        .degrees = Sayings("much|very|too|so|that|strong|strongly|particularly|especially|really|real|terribly|overly|exactly|"
                           "totally|completely|"
                           "entirely|big|bad|serious|<many>|<few>"),
        .hedges = Sayings(
            "maybe|perhaps|probably|possibly|i think|i thought|we think|i guess|guess|i suppose|i reckon|reckon|i "
            "suspect|suspect|"
            "i believe|i fancy|i assume|might|may be|may have|must be|must have|could be|could have|seems|seem|seemed|appears|"
            "appear|kind of|sort of|kinda|sorta|not sure|not certain|unsure|apparently|presumably|i feel|"
            "likely|not think"),
        .imagined = Sayings(
            "would|should|shall|will|could|can it|want|wants|wanted to|plan to|planning|going to|gonna|about to|thinking of|"
            "thinking about|consider|considering|ought|must|need to|needs to|needs|need|tempted|supposed "
            "to|recommend|recommends|"
            "recommended|advised|suggested|suggests|in case|so that|hope|hoping|wish|ideally|let us|try to|instead|able to|can "
            "i|"
            "can we|can be|even though if"),
        .not_imagined = Sayings(
            "could smell|could see|could feel|could tell|could hear|could find|could not|can not|can "
            "smell|can see|before i could|before we could|so that should be|so that is|so that must be|that should be fine"),
        .guessed = Sayings("could be|may be|might be|must be|must have|could have|wonder|wondering|afraid|worried"),
        .imagined_to_the_end = Sayings("if|whether|wonder|wondering|unless|suppose|imagine|assuming|what would happen|afraid"),
        .question_verbs = Sayings(
            "is|was|do|does|did|has|have|can|could|should|shall|will|would|may|might|must|is not|do not|does not|should not"),
        .question_subjects = Sayings(
            "i|we|it|they|this|that|there|these|those|my|our|you|he|she|worms|someone|anyone|anybody|a|an|any|<few>|your"),
        .question_words = Sayings("what|which|who|whom|whose|where|how|when should|when is|when do"),
        .over = Sayings(
            "first lot|first batch|last lot|previous lot|previous owner|last owner|previous tenants|last people|second "
            "hand|used to|ruled out|rule out|last year|last summer|last winter|last spring|last autumn|last season|last "
            "monsoon|last time|years ago|"
            "year ago|back then|previously|formerly|at first|at start|initially|originally|in beginning|when i started|"
            "when we started|when i began|when we began|when it was new|until|till|gone|got rid of|cleared up|went away|"
            "disappeared|once had|before i|before we|before that|before then|earlier|sorted|sorted "
            "out|fixed|cured|solved|"
            "in past|no longer there|stopped being|a year back|years back|long ago|before me|before us|before my time|before "
            "our "
            "time"),
        .fresh = Sayings(
            "this morning|today|yesterday|last night|just now|tonight|this evening|this week|when i opened|when i open|"
            "when i lifted|when i lift|when i looked|when i checked|when i dug|when i went|when we opened|when we looked|"
            "when i got home|when i came|overnight|to find|i opened|we opened|i lifted|we lifted|i found|we found|i noticed|we "
            "noticed|i looked|we looked|i dug|i checked|i discovered|we discovered|i came home|we came home|came back|i "
            "returned|we returned|i got home|woke up|got back|came back|back from|when i|when we|other day|other night|at "
            "weekend|this weekend|last weekend|monday|tuesday|wednesday|thursday|friday|saturday|sunday|as i|as we"),
        .back_to_now = Sayings("now|this year|today|currently|at moment|these days|this time|at present|nowadays|this week"),
        .well_again =
            Sayings("fine|good|well|better|normal|great|perfect|right|happy|healthy|solved|recovered|thriving|back to normal"),
        .granted = Sayings(
            "get rid of|getting rid of|do about|done about|deal with|dealing with|fix|cure|combat|tackle|eradicate|eliminate"),
        .elsewhere =
            Sayings("i read|heard stories|stories of|i have read|i heard|i was told|google|youtube|people say|they say|someone "
                    "said|friend told me|someone told me|somebody told me|mate told me|neighbour told me|compost pail|my "
                    "pail|our pail|pail in kitchen|crock|kitchen container|kitchen bucket|kitchen compost pail|kitchen compost "
                    "bin|kitchen compost bucket|kitchen compost container|kitchen scrap bin|kitchen scraps bin|kitchen scraps "
                    "container|litter tray|litter "
                    "box|caddy|bathroom bin|nappy bin|online|internet|website|forum|"
                    "article|instructions|radio|hers|theirs|book|books|guide|guides|leaflet|manual|kitchen bin|kitchen "
                    "pail|kitchen caddy|rubbish "
                    "bin|trash can|trash bin|"
                    "garbage bin|garbage can|garbage|wheelie bin|dustbin|recycling bin|other bin|old bin|first "
                    "bin|previous bin|second bin|"
                    "other wormery|friend of mine|at work|for example|e g|supposedly"),
        .not_elsewhere = Sayings(
            "like book says|as book says|by book|like guide says|as guide says|like leaflet says|as leaflet says|like video"),
        .not_this_one = Sayings("last|previous|old|former|earlier|other|original"),
        .containers = Sayings(
            "bin|bins|box|tank|tub|wormery|farm|tower|tote|composter|tumbler|heap|pile|batch|bucket|worm bin|compost bin|worm "
            "farm|compost heap|compost pile|worm box"),
        .other_people = Sayings("neighbours|neighbour|friend|friends|sister|sisters|brother|brothers|mum|mums|mom|moms|dad|"
                                "dads|mother|mothers|father|"
                                "fathers|colleague|colleagues|boss|uncle|uncles|aunt|aunts|cousin|cousins|someone|somebody|"
                                "else|elses|school|schools|"
                                "daughter|daughters|son|sons"),
        .back_to_mine = Sayings("mine|ours|this one|this bin|i have|i have got|we have"),
        .clause_openers = Sayings(
            "and|but|although|though|however|because|whereas|while|plus|yet|so i|so we|so it|so they|so there|so worms|so now|"
            "since i|since we|since it|which|then|also|should i|should we|what should|what do i|what can i|is this normal|"
            "is that normal|is it normal|is this bad|is that bad|any ideas|any advice"),
        .own_grammar = Sayings("i|it|they|there|we|he|she|you|this|that|these|those|is|was|has|have|had|do|does|did|worms|can|"
                               "will|got|smell|stinks|"
                               "reeks|found|saw"),
        .strengtheners = Sayings(
            "really|so|just|quite|very|completely|totally|absolutely|all|now|also|still|already|definitely|rather|pretty|super|"
            "extremely|again|both|even|actually|literally|terribly|horribly|utterly|incredibly|fully|always|only|too"),
        .weakeners = Sayings("a bit|bit|slightly|slight|somewhat|faintly|vaguely|mildly|almost|nearly|sometimes|occasionally"),
        .worm_words = Sayings("worms|worm|wigglers|redworms|reds|nightcrawlers|herd|brandlings|wrigglies|wormies|earthworms"),
        .others_that_they_may_be = Sayings(
            "flies|fly|gnats|mites|mite|ants|ant|rats|rat|mice|mouse|maggots|maggot|larvae|grubs|grub|bugs|bug|beetles|slugs|"
            "slug|"
            "snails|centipedes|millipedes|roaches|cockroaches|springtails|potworms|pot|termites|spiders|spider|woodlice|"
            "earwigs|"
            "raccoons|birds|chickens|hens|ducks|crows|dogs|cats|kids|children|pupils|students|neighbours|friends|people|"
            "insects|"
            "creatures|critters|animals|frogs|toads|lizards|snakes|mosquitoes|bsf|bsfl|eggs|cocoons|babies|mushrooms|threads|"
            "specks|dots|things|mould|fungus|seeds|seedlings|plants|tomatoes|leaves|condensation|droplets|drops|moths|wasps|"
            "bees|"
            "flatworms|planarians|webs|nematodes"),
        .makes_worms_doubtful = Sayings("white|tiny|small|little|baby|thread|thin|clear|transparent|round|flat|pot|parasitic|"
                                        "black|dead|other|inch|wire|meal|"
                                        "cut|army|silk|hair"),
        .bed_words = Sayings("bed|beds|bedding|bin|box|tank|tub|wormery|farm|compost|vermicompost|contents|material|stuff|"
                             "everything|thing|inside|"
                             "mix|mixture|system|unit|vermi|tower|container|bucket|soil|vermicomposter|heap|heaps|pile|piles|"
                             "windrow|windrows|tumbler|pit|pits|tray|trays|stack|"
                             "castings|manure|dung|muck|clippings|mulch|composter|bottom|ours|mine|half|end|side|corner|middle|"
                             "layer|bay|chamber|top|vermicompost|"
                             "crate|barrel|bag|rest|whole|lot|all"),
        .person_words = Sayings(
            "i|he|she|we|you|me|husband|wife|son|daughter|man|woman|worker|workers|colleague|boy|girl|child|kid|kids|children|"
            "mother|father|mum|dad|uncle|aunt|helper|someone|somebody|mate|friend|neighbour|labourer|guy|person|one|brother|"
            "sister|"
            "volunteer|gardener|cleaner|my|has|they|them"),
        .feeding_verbs = Sayings("feed|fed|feeding|feeds|gave|give|given|giving|gives|mixed|eat|ate|eating|cooked"),
        .speakers = Sayings("i|we|he|she|you|who|someone|nobody"),
        .weather_words = Sayings(
            "weather|outside|outdoors|outdoor|summer|winter|day|days|afternoon|afternoons|noon|midday|garage|room|house|"
            "kitchen|"
            "shed|climate|forecast|air|ambient|sun|nights|night|monsoon|region|city|town|season|country|greenhouse|balcony"),
        .makes_another_thing = Sayings("trap|traps|powder|killer|bait|poison|repellent|proof|spray|free|resistant|bag|bags|"
                                       "bucket|net|netting|control|guard|"
                                       "catcher|plant|welcome|paw|paws|boots|compost|paper|strip|strips"),
        .little = Sayings(
            "a|an|my|our|your|his|her|their|this|that|these|those|any|each|every|another|such|both|all|<few>|<many>|i|it|we|"
            "you|"
            "they|him|he|she|me|us|who|which|there|here|everything|something|anything|nothing|them|one|ones|in|on|at|of|by|"
            "with|"
            "from|to|for|into|under|over|near|around|round|about|through|inside|out|up|down|off|across|along|after|since|"
            "during|"
            "and|or|nor|but|so|as|because|while|then|plus|than|though|although|if|is|was|be|been|being|do|does|did|have|has|"
            "had|"
            "having|see|saw|seen|find|found|finding|notice|noticed|spotted|discovered|got|get|gets|getting|gotten|seeing|look|"
            "looks|looking|looked|feel|feels|felt|seem|seems|appear|appears|gone|go|went|going|goes|become|became|becomes|"
            "becoming|"
            "turned|turning|keep|keeps|kept|come|came|coming|comes|start|started|starting|begun|began|remain|remains|stay|"
            "stays|"
            "hello|hi|please|help|thanks|thank|sir|madam|hey|well|yes|yeah|oh|ok|fine|today|yesterday|bit|lot|more|most|much|"
            "really|very|quite|too|just|only|also|now|still|already|again|almost|even|ever|always|usually|often|sometimes|"
            "suddenly|"
            "mostly|mainly|completely|totally|absolutely|definitely|rather|pretty|super|extremely|actually|literally|not|no|"
            "never|"
            "none|without|morning|evening|night|can|could|will|would|should|may|might|must|make|makes|made|making|like|think|"
            "thought|know|say|says|"
            "said|"
            "tell|try|trying|tried|want|when|where|how|why|what|half|whole|entire|lots|loads|hundreds|dozens|thousands|"
            "millions|"
            "bunch|couple|few|several|plenty|nearly|many|everyone|everybody"),
    };
    return words;
}

}  // namespace lidlift::hearing
