// refused: push_back|const std::vector<inkturn::Part>
#include <inkturn/paper/paper.hpp>

inkturn::Paper with(const inkturn::Paper& paper, const inkturn::Part& part) {
#ifdef WRONG
    inkturn::Paper longer = paper;
    longer.parts().push_back(part);
    return longer;
#else
    std::vector<inkturn::Part> parts = paper.parts();
    parts.push_back(part);
    return inkturn::Paper({"longer", paper.title(), paper.subject(), paper.duration()}, parts);
#endif
}
