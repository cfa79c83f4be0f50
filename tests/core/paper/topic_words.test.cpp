#include "inkturn/paper/topic_words.hpp"

#include "catch.hpp"
#include "dice.hpp"

#include <memory>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

std::string said(const TopicProposal& proposal) {
    std::string text = proposal.is_sure() ? "sure:" : "doubt:";
    for (const auto& topic : proposal.topics)
        text += " " + topic.topic + " " + std::to_string(topic.words);
    return text;
}

const std::vector<WordedPart> known{{"p1", "vectors", "Find the angle between the vectors a and b"},
                                    {"p1", "series", "Find the sum of the series"},
                                    {"p2", "vectors", "The points A and B have position vectors"},
                                    {"p2", "series", "The first term of a geometric series"}};

TEST_CASE("a word speaks for a topic if more than half of the parts that have it are on that topic") {
    const TopicWords words(known);
    CHECK(said(words.propose("VECTORS, angle; position!")) == "sure: vectors 3");
    CHECK(said(words.propose("find the series")) == "doubt: series 1"); // find and the are of both
    CHECK(said(words.propose("angle geometric term position points")) == "doubt: vectors 3 series 2");
    CHECK(said(words.propose("integrate by parts")) == "doubt:");
    CHECK(said(words.propose("")) == "doubt:");
}

TEST_CASE("a topic is sure with two words more than the next, and not with one") {
    const TopicWords words(known);
    CHECK_FALSE(words.propose("angle").is_sure());
    CHECK(words.propose("angle position").is_sure());
    CHECK_FALSE(words.propose("angle position geometric").is_sure());
    CHECK(words.propose("angle position points geometric").is_sure());
}

TEST_CASE("a word counts once however often a part has it, and short ones and numbers don't") {
    const TopicWords words(known);
    CHECK(said(words.propose("angle angle Angle 12 a b 345")) == "doubt: vectors 1");
}

TEST_CASE("parts of a group that is left out don't count") {
    const TopicWords words(known);
    CHECK(said(words.propose("angle position vectors", "p1")) == "sure: vectors 2");
    CHECK(said(words.propose("angle position vectors", "p2")) == "sure: vectors 2");
    CHECK(said(words.propose("angle position", "p3")) == "sure: vectors 2");
}

TEST_CASE("each part is held out with its group") {
    const HeldOutTopics fared = held_out(known);
    CHECK(fared.parts == 4);
    CHECK(fared.sure == 2); // "and vectors"; of the parts on series the other paper knows one word alone
    CHECK(fared.right == 2);
}

/// Parts of invented words: of each topic's ten, and of twenty that all topics share.
std::vector<WordedPart> invented(int papers, std::mt19937& dice) {
    std::vector<WordedPart> parts;
    for (int paper = 0; paper < papers; ++paper)
        for (int topic = 0; topic < 10; ++topic) {
            std::string words;
            for (int word = 0; word < 8; ++word)
                words +=
                    word < 4
                        ? "own" + std::string(1, static_cast<char>('a' + topic)) +
                              std::string(1, static_cast<char>('a' + test::pick(dice, 0, 9))) + " "
                        : "shared" + std::string(1, static_cast<char>('a' + test::pick(dice, 0, 19))) + " ";
            parts.push_back({"paper " + std::to_string(paper), "topic " + std::to_string(topic), words});
        }
    return parts;
}

TEST_CASE("of twelve papers of invented words nearly all parts are proposed rightly, and few wrongly") {
    std::mt19937 dice(19);
    const HeldOutTopics fared = held_out(invented(12, dice));
    CHECK(fared.parts == 120);
    CHECK(fared.sure >= 100);
    CHECK(fared.right * 100 >= fared.sure * 95);
}

TEST_CASE("words that have nothing to do with topics are hardly ever taken for sure") {
    std::mt19937 dice(20);
    std::vector<WordedPart> parts;
    for (int i = 0; i < 200; ++i) {
        std::string words;
        for (int word = 0; word < 6; ++word)
            words += "word" + std::string(1, static_cast<char>('a' + test::pick(dice, 0, 25))) + " ";
        parts.push_back({"paper " + std::to_string(i % 10), "topic " + std::to_string(i % 7), words});
    }
    CHECK(held_out(parts).sure <= 10);
}

TEST_CASE("a part is told by its own words and those that begin its question") {
    const Paper paper({"pure-1", "", "", {}},
                      {{"1", Marks(3), "", ""}, {"2a", Marks(2), "", ""}, {"2b", Marks(4), "", ""}});
    const WordsByPart words{{"1", "Solve"}, {"2a", "The vectors"}, {"2b", "Hence find"}};
    CHECK(telling_words(paper, 0, words) == "Solve");
    CHECK(telling_words(paper, 1, words) == "The vectors");
    CHECK(telling_words(paper, 2, words) == "The vectors Hence find");
    CHECK(telling_words(paper, 0, {}).empty());
}

TEST_CASE("parts are known by papers, or by questions where one paper has them all; copies count once") {
    const auto paper = [](const std::string& id) {
        return std::make_shared<const Paper>(PaperHead{id, "", "", {}},
                                             std::vector<Part>{{"1", Marks(3), "series", ""},
                                                               {"2", Marks(3), "", ""},
                                                               {"3", Marks(3), "vectors", ""}});
    };
    const WordsByPart words{{"1", "sum"}, {"2", "find"}, {"3", "angle"}};
    const auto one = worded_parts({paper("a")}, {}, {{"a", words}});
    REQUIRE(one.size() == 2);
    CHECK(one[0].group == "a 1");
    CHECK(one[1].group == "a 3");
    const auto two =
        worded_parts({paper("a"), paper("b")}, {{{"a", "1"}, {"b", "3"}}}, {{"a", words}, {"b", words}});
    REQUIRE(two.size() == 3);
    CHECK(two[0].group == "a");
    CHECK(two[2].group == "b");
    CHECK(two[2].topic == "series");
    CHECK(worded_parts({paper("a")}, {}, {}).empty());
}

} // namespace
