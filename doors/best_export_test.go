package doors

// Searched is a search none of whose sets are looked at one by one, with the
// exact bounds of the price from so many steps on; zero: where they usually are.
func Searched(s Search, steps int) Search {
	s.few, s.hull = -1, steps
	return s
}

// Limited is a search with so many steps at most.
func Limited(s Search, steps int) Search {
	s.work = steps
	return s
}
