package doors

// least keeps the least of what it is shown, up to a limit: a heap whose root is
// the greatest of them, so that keeping thousands costs little more than keeping ten.
type least[T any] struct {
	limit   int
	compare func(a, b *T) int
	kept    []T
}

func (l *least[T]) full() bool { return len(l.kept) == l.limit }

// last is the greatest kept; there is one.
func (l *least[T]) last() *T { return &l.kept[0] }

// show keeps an item if it is among the least.
func (l *least[T]) show(item T) {
	last := len(l.kept)
	l.kept = append(l.kept, item)
	if last < l.limit {
		l.rise(last)
		return
	}
	if l.compare(&l.kept[last], &l.kept[0]) < 0 {
		l.kept[0] = item
		l.kept = l.kept[:last]
		l.sink(last)
		return
	}
	l.kept = l.kept[:last]
}

func (l *least[T]) rise(i int) {
	for i > 0 {
		above := (i - 1) / 2
		if l.compare(&l.kept[i], &l.kept[above]) <= 0 {
			return
		}
		l.kept[i], l.kept[above] = l.kept[above], l.kept[i]
		i = above
	}
}

// sink lets the root sink among the first of so many.
func (l *least[T]) sink(count int) {
	for i := 0; ; {
		greater := 2*i + 1
		if greater >= count {
			return
		}
		if right := greater + 1; right < count && l.compare(&l.kept[right], &l.kept[greater]) > 0 {
			greater = right
		}
		if l.compare(&l.kept[i], &l.kept[greater]) >= 0 {
			return
		}
		l.kept[i], l.kept[greater] = l.kept[greater], l.kept[i]
		i = greater
	}
}

// sorted returns what is kept, the least first. Nothing can be shown any more.
func (l *least[T]) sorted() []T {
	for last := len(l.kept) - 1; last > 0; last-- {
		l.kept[0], l.kept[last] = l.kept[last], l.kept[0]
		l.sink(last)
	}
	return l.kept
}
