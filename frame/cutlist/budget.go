package cutlist

import "context"

// pollEvery is the number of steps between two looks at the context, well under a millisecond.
const pollEvery = 1 << 15

// A budget counts the steps of a search and stops it. A step is some nanoseconds of work. Only the
// context can stop a search at another place the next time.
type budget struct {
	ctx     context.Context
	left    int64
	poll    int64
	stopped bool
}

func newBudget(ctx context.Context, work int64) *budget {
	return &budget{ctx: ctx, left: work, stopped: ctx.Err() != nil}
}

// spend takes n steps off the budget.
func (b *budget) spend(n int64) {
	b.left -= n
	if b.left < 0 {
		b.stopped = true
	}
	if b.poll -= n; b.poll < 0 {
		b.poll = pollEvery
		if b.ctx.Err() != nil {
			b.stopped = true
		}
	}
}

// out reports whether the search has to stop.
func (b *budget) out() bool {
	return b.stopped
}
