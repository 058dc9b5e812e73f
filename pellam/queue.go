package pellam

import "container/heap"

// queue hands out joints, the one with fewest neighbors first and the lower
// number among equals.
type queue struct {
	net   []map[int]float64
	joint []int // a heap
	place []int // of each joint in the heap; -1 when handed out
}

func newQueue(net []map[int]float64) *queue {
	q := &queue{net: net, joint: make([]int, len(net)), place: make([]int, len(net))}
	for i := range net {
		q.joint[i], q.place[i] = i, i
	}
	heap.Init(q)
	return q
}

// fewest takes the next joint; not ok when none is left.
func (q *queue) fewest() (int, bool) {
	if len(q.joint) == 0 {
		return 0, false
	}
	return heap.Pop(q).(int), true
}

// moved says that the neighbors of a joint changed.
func (q *queue) moved(joint int) {
	if q.place[joint] >= 0 {
		heap.Fix(q, q.place[joint])
	}
}

// Len, Less, Swap, Push and Pop are for package heap.
func (q *queue) Len() int { return len(q.joint) }

// Less orders by number of neighbors.
func (q *queue) Less(i, j int) bool {
	a, b := q.joint[i], q.joint[j]
	if na, nb := len(q.net[a]), len(q.net[b]); na != nb {
		return na < nb
	}
	return a < b
}

// Swap exchanges two places of the heap.
func (q *queue) Swap(i, j int) {
	q.joint[i], q.joint[j] = q.joint[j], q.joint[i]
	q.place[q.joint[i]], q.place[q.joint[j]] = i, j
}

// Push is not used: joints only leave.
func (q *queue) Push(any) { panic("pellam: a joint never comes back") }

// Pop takes the last place off.
func (q *queue) Pop() any {
	last := q.joint[len(q.joint)-1]
	q.joint = q.joint[:len(q.joint)-1]
	q.place[last] = -1
	return last
}
