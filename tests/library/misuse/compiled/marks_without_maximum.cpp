// refused: PartMarks
#include <inkturn/paper/marks.hpp>

inkturn::PartMarks marks() {
#ifdef WRONG
    return inkturn::PartMarks(inkturn::MarksByPhase{inkturn::Marks(9)});
#else
    return inkturn::PartMarks(inkturn::MarksByPhase{inkturn::Marks(3)}, inkturn::Marks(4));
#endif
}
