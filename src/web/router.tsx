// The addresses of the application. To add a screen:
// 1. Make `src/web/<area>/<name>-screen.tsx` with one named export; it reads `useParams({ from: '/a/$assessment' })` and
//    gets its document by `useAssessment(assessment)`, its figures by `useVerdict(snapshot.document, snapshot.revision)`.
// 2. Add a route here whose component is `lazyRouteComponent(() => import('./<area>/<name>-screen.tsx'), '<Name>Screen')`,
//    below `assessmentRoute` if it is about one assessment (the document is open before it is drawn), so that its script is
//    loaded when it is first visited, and list the route in `routeTree`.
// 3. Add its line to `app-shell/areas.ts`: the bar of areas shows what stands there and nothing else.
// 4. Give the heading of each section an id: the links past sections (`app-shell/section-links.tsx`) follow from them.
import { createRootRoute, createRoute, createRouter, lazyRouteComponent } from '@tanstack/react-router';
import { AppShell } from './app-shell/app-shell.tsx';
import { AssessmentFrame } from './app-shell/assessment-frame.tsx';
import { Loading, NotFound, RouteFailure } from './app-shell/route-states.tsx';
import { readShelf } from './ledger/ledger-client.ts';
import { holdAssessment } from './ledger/use-assessment.ts';
import { readCurrentRubric } from './rubric/current-rubric.ts';
import { ShelfScreen } from './shelf/shelf-screen.tsx';

const rootRoute = createRootRoute({ component: AppShell, notFoundComponent: NotFound });

const shelfRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/',
  loader: async () => ({ items: await readShelf() }),
  component: ShelfScreen,
});

const newRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/new',
  loader: async () => ({ items: await readShelf() }),
  component: lazyRouteComponent(() => import('./shelf/new-assessment-screen.tsx'), 'NewAssessmentScreen'),
});

const rubricRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/rubric',
  loader: async () => {
    const [items, current] = await Promise.all([readShelf(), readCurrentRubric()]);
    return { items, current };
  },
  component: lazyRouteComponent(() => import('./rubric/rubric-screen.tsx'), 'RubricScreen'),
});

const assessmentRoute = createRoute({
  getParentRoute: () => rootRoute,
  path: '/a/$assessment',
  loader: async ({ params }) => {
    await holdAssessment(params.assessment);
  },
  component: AssessmentFrame,
});

const recordRoute = createRoute({
  getParentRoute: () => assessmentRoute,
  path: '/',
  component: lazyRouteComponent(() => import('./record-view/record-screen.tsx'), 'RecordScreen'),
});

const benchRoute = createRoute({
  getParentRoute: () => assessmentRoute,
  path: '/bench',
  component: lazyRouteComponent(() => import('./bench/screen/bench-screen.tsx'), 'BenchScreen'),
});

const structureRoute = createRoute({
  getParentRoute: () => assessmentRoute,
  path: '/structure',
  component: lazyRouteComponent(() => import('./structure/structure-screen.tsx'), 'StructureScreen'),
});

const routesRoute = createRoute({
  getParentRoute: () => assessmentRoute,
  path: '/routes',
  component: lazyRouteComponent(() => import('./routes-view/routes-screen.tsx'), 'RoutesScreen'),
});

const swapsRoute = createRoute({
  getParentRoute: () => assessmentRoute,
  path: '/swaps',
  component: lazyRouteComponent(() => import('./swaps/swaps-screen.tsx'), 'SwapsScreen'),
});

const findingsRoute = createRoute({
  getParentRoute: () => assessmentRoute,
  path: '/swaps/findings',
  component: lazyRouteComponent(() => import('./swaps/swaps-screen.tsx'), 'SwapsScreen'),
});

const verdictRoute = createRoute({
  getParentRoute: () => assessmentRoute,
  path: '/verdict',
  component: lazyRouteComponent(() => import('./verdict/verdict-screen.tsx'), 'VerdictScreen'),
});

const routeTree = rootRoute.addChildren([
  shelfRoute,
  newRoute,
  rubricRoute,
  assessmentRoute.addChildren([
    recordRoute,
    benchRoute,
    structureRoute,
    routesRoute,
    swapsRoute,
    findingsRoute,
    verdictRoute,
  ]),
]);

/** The router of the application. */
export const router = createRouter({
  routeTree,
  // A shelf or a record seen before is asked for again each time: another window may have changed it.
  defaultStaleTime: 0,
  defaultGcTime: 0,
  defaultPendingMs: 300,
  defaultPendingComponent: Loading,
  defaultErrorComponent: RouteFailure,
  scrollRestoration: true,
});

declare module '@tanstack/react-router' {
  interface Register {
    router: typeof router;
  }
}
