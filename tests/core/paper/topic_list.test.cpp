#include "inkturn/paper/topic_list.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::Contains;
using Topics = std::vector<ListedTopic>;

const TopicList pure({{"algebra"},
                      {"surds", "algebra"},
                      {"indices", "algebra"},
                      {"vectors"},
                      {"scalar product", "vectors"},
                      {"trigonometry"}});

std::vector<std::string> names(const TopicList& list) {
    std::vector<std::string> all;
    for (const ListedTopic& listed : list.topics())
        all.push_back(listed.topic + (listed.parent.empty() ? "" : " < " + listed.parent));
    return all;
}

TEST_CASE("a topic that one slip or capitals made of another was meant to be that one") {
    const std::vector<std::string> known{"algebra", "mean", "vectors"};
    CHECK(topic_meant("algbera", known) == "algebra");
    CHECK(topic_meant("Vectors", known) == "vectors");
    CHECK(topic_meant("vector", known) == "vectors");
    CHECK_FALSE(topic_meant("median", known));
    CHECK_FALSE(topic_meant("series", known));
}

TEST_CASE("a topic is spelled as in the list, or nearly, or not at all") {
    CHECK(pure.spelled("vectors").spelling == TopicSpelling::listed);
    const SpelledTopic alike = pure.spelled(" Scalar  Product ");
    CHECK(alike.spelling == TopicSpelling::alike);
    CHECK(alike.listed == "scalar product");
    const SpelledTopic near = pure.spelled("vectros");
    CHECK(near.spelling == TopicSpelling::near);
    CHECK(near.listed == "vectors");
    CHECK(pure.spelled("sequences").spelling == TopicSpelling::unknown);
}

TEST_CASE("an empty list holds nothing against any topic's spelling") {
    CHECK(TopicList().spelled("vectors").spelling == TopicSpelling::unknown);
    CHECK(TopicList().with_pieces({"vectors"}) == std::vector<std::string>{"vectors"});
}

TEST_CASE("a topic brings its pieces along, at any depth, in the order of the list") {
    const TopicList deep({{"a"}, {"c", "b"}, {"b", "a"}, {"d"}});
    CHECK(deep.with_pieces({"a"}) == std::vector<std::string>{"a", "c", "b"});
    CHECK(pure.with_pieces({"vectors", "surds"}) ==
          std::vector<std::string>{"surds", "vectors", "scalar product"});
    CHECK(pure.with_pieces({"vectors", "moments"}) ==
          std::vector<std::string>{"vectors", "scalar product", "moments"});
}

TEST_CASE("a list has no topic twice, no parent that it lacks, and no topic that is a piece of itself") {
    CHECK_THROWS_WITH(TopicList(Topics{{"Surds"}, {"surds"}}), Contains("appears twice"));
    CHECK_THROWS_WITH(TopicList(Topics{{"surds", "algebra"}}), Contains("'algebra' is not in the list"));
    CHECK_THROWS_WITH(TopicList(Topics{{"a", "b"}, {"b", "a"}}), Contains("piece of itself"));
    CHECK_THROWS_WITH(TopicList(Topics{{"a", "a"}}), Contains("piece of itself"));
    CHECK_THROWS_AS(TopicList(Topics{{""}}), Error);
    CHECK_THROWS_AS(TopicList(Topics{{"a\tb"}}), Error);
    CHECK_THROWS_AS(TopicList(Topics{{std::string(201, 'a')}}), Error);
    CHECK_NOTHROW(TopicList(Topics{{std::string(200, 'a')}}));
}

TEST_CASE("topics put to a list come first, in their order, and decide the spelling") {
    const TopicList list = with_topics(pure, {{"Vectors"}, {"proof"}, {"surds"}});
    CHECK(names(list) == std::vector<std::string>{"Vectors", "proof", "surds < algebra", "algebra",
                                                  "indices < algebra", "scalar product < Vectors",
                                                  "trigonometry"});
}

TEST_CASE("a parent may be among the topics on file, and is named as the list spells it") {
    CHECK(names(with_topics(pure, {{"planes", "Vectors"}})).front() == "planes < vectors");
    CHECK_THROWS_WITH(with_topics(pure, {{"planes", "solids"}}), Contains("'solids' is not in the list"));
}

TEST_CASE("one topic more comes behind its parent's last piece, or at the end") {
    CHECK(names(with_topic(pure, {"planes", "Vectors"}))[5] == "planes < vectors");
    CHECK(names(with_topic(pure, {"proof"})).back() == "proof");
    CHECK(names(with_topic(pure, {"Vectors"})) ==
          std::vector<std::string>{"algebra", "surds < algebra", "indices < algebra", "Vectors",
                                   "scalar product < Vectors", "trigonometry"});
    CHECK(names(with_topic(pure, {"indices", "vectors"}))[4] == "indices < vectors");
    CHECK(names(with_topic(pure, {"surds", "algebra"})) == names(pure));
    CHECK(names(with_topic(pure, {"vectors", "algebra"})) ==
          std::vector<std::string>{"algebra", "surds < algebra", "indices < algebra", "vectors < algebra",
                                   "scalar product < vectors", "trigonometry"});
    CHECK_THROWS_WITH(with_topic(pure, {"planes", "solids"}), Contains("'solids' is not in the list"));
    CHECK_THROWS_WITH(with_topic(pure, {"algebra", "surds"}), Contains("piece of itself"));
}

} // namespace
