// refused: earned_
#include <inkturn/paper/marks.hpp>

inkturn::PartMarks marks() {
#ifdef WRONG
    inkturn::PartMarks marks;
    marks.earned_.in_time = inkturn::Marks(9);
    return marks;
#else
    return inkturn::PartMarks({inkturn::Marks(3)}, inkturn::Marks(4));
#endif
}
